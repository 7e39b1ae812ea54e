"""Wishes: who goes without a strand of the class, and what would help."""

from dataclasses import replace

from builder.planning.class_plan import worth
from builder.planning.class_plan.changes import Change
from builder.planning.class_plan.problem import ClassProblem, Version
from builder.planning.class_plan.search import find_plan
from builder.planning.class_plan.wishes import Wish, find_wishes
from tests.planning.class_plan.test_score import COUNT, PROBLEM, QUIET

KNEEL = Version("kneel", "fours", COUNT, "kneeling", False, 100, worth.STEP)
BALL = replace(QUIET, lesson_id="ball", strand_id="front", props=(("ball", 1),))


def find(problem: ClassProblem, *strands: str) -> tuple[Wish, ...]:
    found = find_plan(problem)
    assert found is not None
    return find_wishes(problem, found.plan, strands)


def allow(first: tuple[Version, ...], second: tuple[Version, ...]) -> ClassProblem:
    families = ("lying", "kneeling", "upright")
    return replace(PROBLEM, versions={"C1": first, "C2": second}, families=families)


def test_who_has_nothing_to_do_there_stands_in_the_way() -> None:
    problem = allow((QUIET, KNEEL), (QUIET,))
    assert find(problem, "breath", "fours") == (Wish("fours", ("C1",), None, ("C2",)),)


def test_one_more_ball_in_the_only_block_is_all_it_takes() -> None:
    other = replace(QUIET, strand_id="calm", points=worth.KNOWN)
    problem = replace(allow((other, BALL), (other, BALL)), most_blocks=1, seconds=240)
    (wish,) = find(problem, "front")
    assert wish.strand_id == "front"
    assert len(wish.people) == 1
    assert wish.change == Change(props={"ball": 1})


def test_what_is_worth_as_much_may_take_the_place_of_the_rest() -> None:
    problem = replace(allow((QUIET, BALL), (QUIET, BALL)), seconds=210, props={"ball": 2})
    (wish,) = find(problem, "breath", "front")
    assert wish.people == ("C1", "C2")
    assert wish.change == Change()


def test_who_cannot_join_the_others_may_take_their_place() -> None:
    """One block only: lying down for C1's ball, or kneeling for C2's."""
    kneel = replace(KNEEL, strand_id="front", points=worth.PRACTICE)
    rest = replace(KNEEL, lesson_id="rest", strand_id="calm", points=worth.KNOWN)
    lie = replace(QUIET, strand_id="calm", points=worth.KNOWN)
    problem = replace(allow((BALL, rest), (lie, kneel)), most_blocks=1)
    (wish,) = find(problem, "front")
    assert len(wish.people) == 1
    assert wish.change == Change()


def test_where_all_is_done_there_is_no_wish() -> None:
    assert find(allow((QUIET,), (QUIET,)), "breath") == ()
