from dataclasses import replace

from hypothesis import assume, given, settings
from hypothesis import strategies as st

from builder.planning.class_plan import worth
from builder.planning.class_plan.explain import Reason, explain_plan
from builder.planning.class_plan.problem import ClassProblem, Version
from builder.planning.class_plan.refusal import Ground, Refusal
from builder.planning.class_plan.score import Breach, Fault, score_plan
from builder.planning.class_plan.search import find_plan
from tests.planning.class_plan.problems import FAMILIES, small_problems, versions
from tests.trying import count_tries


def grant(problem: ClassProblem, lack: Breach) -> ClassProblem:
    """Give what a reason says is lacking, and no more."""
    more = lack.wanted - lack.there
    match lack.fault:
        case Fault.PROPS:
            props = {**problem.props, lack.prop_id: problem.props[lack.prop_id] + more}
            return replace(problem, props=props)
        case Fault.CLOSE_LOOKS:
            return replace(problem, close_looks=problem.close_looks + more)
        case Fault.TOO_MANY_NEW:
            return replace(problem, most_new=problem.most_new + more)
        case _:
            return replace(problem, seconds=problem.seconds + more)


def allow(problem: ClassProblem, refusal: Refusal) -> ClassProblem:
    own = (*problem.versions[refusal.person_id], refusal.version)
    return replace(problem, versions={**problem.versions, refusal.person_id: own})


@settings(max_examples=count_tries(80, 300))
@given(small_problems())
def test_with_what_is_lacking_there_is_a_better_plan(problem: ClassProblem) -> None:
    found = find_plan(problem)
    assume(found is not None)
    assert found is not None
    for reason in explain_plan(problem, found.plan, (), lambda _: problem):
        assert reason.lack is not None
        better = find_plan(grant(problem, reason.lack))
        assert better is not None
        assert better.score.points >= found.score.points + reason.gain
        assert better.plan != found.plan


@settings(max_examples=count_tries(80, 300))
@given(small_problems(), st.data())
def test_with_a_ground_gone_there_is_a_better_plan(
    problem: ClassProblem, data: st.DataObject
) -> None:
    found = find_plan(problem)
    assume(found is not None)
    assert found is not None
    refusal = Refusal("C1", data.draw(versions(9)), Ground.NOT_READY, ("lesson-8",))
    for reason in explain_plan(problem, found.plan, (refusal,), lambda each: allow(problem, each)):
        if reason.refusal is not None:
            better = find_plan(allow(problem, refusal))
            assert better is not None
            stands = score_plan(allow(problem, refusal), found.plan)
            assert better.score.points >= stands.points + reason.gain
            assert better.plan != found.plan


def lesson(name: str, points: int, *props: str) -> Version:
    used = tuple((prop, 1) for prop in props)
    return Version(name, name, "4-1-4-1", "lying", False, 100, points, props=used)


def two_people(ball: int) -> ClassProblem:
    both = (lesson("even-count", worth.KNOWN), lesson("ball-hold", worth.PRACTICE, "ball"))
    return ClassProblem(
        people=("C1", "C2"),
        versions={"C1": both, "C2": both},
        families=FAMILIES,
        seconds=300,
        most_blocks=1,
        close_looks=2,
        most_new=2,
        props={"ball": ball},
        set_up_seconds=30,
        rest_seconds=60,
    )


def test_who_goes_without_a_ball_is_told_so() -> None:
    problem = two_people(ball=1)
    found = find_plan(problem)
    assert found is not None
    lack = Breach(Fault.PROPS, 1, prop_id="ball", wanted=2, there=1)
    waits = next(
        turn.person_id for turn in found.plan.blocks[0].turns if turn.lesson_id == "even-count"
    )
    reasons = explain_plan(problem, found.plan, (), lambda _: problem)
    gain = worth.PRACTICE - worth.KNOWN - worth.MISSED_STRAND
    assert reasons == (Reason(1, waits, "even-count", "ball-hold", gain, lack=lack),)


def test_with_balls_for_both_nothing_is_to_be_explained() -> None:
    problem = two_people(ball=2)
    found = find_plan(problem)
    assert found is not None
    assert explain_plan(problem, found.plan, (), lambda _: problem) == ()
