"""Random problems of classes, and the best plan found by trying every one."""

from collections.abc import Iterator
from dataclasses import replace
from itertools import combinations, product
from random import Random

from hypothesis import strategies as st

from builder.planning.class_plan import worth
from builder.planning.class_plan.problem import ClassProblem, Version
from builder.planning.class_plan.score import Score, score_plan
from builder.records.plan import OWN_PACE, ClassPlan, PlannedBlock, Turn

COUNTS = (OWN_PACE, "4-1-4-1")
FAMILIES = ("lying", "upright")
PROPS = ("ball", "block")


@st.composite
def versions(draw: st.DrawFn, lesson: int) -> Version:
    is_new = draw(st.booleans())
    return Version(
        lesson_id=f"lesson-{lesson}",
        strand_id=draw(st.sampled_from(["breath", "brace"])),
        count=draw(st.sampled_from(COUNTS)),
        family=draw(st.sampled_from(FAMILIES)),
        is_loaded=draw(st.booleans()),
        seconds=draw(st.sampled_from([50, 100, 130, 200])),
        points=worth.STEP if is_new else draw(st.sampled_from([worth.PRACTICE, worth.KNOWN])),
        is_new=is_new,
        props=draw(st.sampled_from([(), (("ball", 1),), (("block", 1),), (("ball", 2),)])),
        most_times=draw(st.sampled_from([1, 2, 2])),
    )


@st.composite
def small_problems(draw: st.DrawFn) -> ClassProblem:
    """Draw a problem so small that every plan can be tried."""
    people = draw(st.sampled_from([("C1",), ("C1", "C2"), ("C1", "C2")]))
    lessons = [draw(versions(number)) for number in range(4)]
    allowed = {
        person: tuple(
            lessons[number]
            for number in sorted(
                draw(st.sets(st.integers(0, 3), min_size=1, max_size=3 if len(people) > 1 else 4))
            )
        )
        for person in people
    }
    return ClassProblem(
        people=people,
        versions=allowed,
        families=FAMILIES,
        seconds=draw(st.sampled_from([300, 500, 700, 1000])),
        most_blocks=draw(st.sampled_from([1, 2, 3 if len(people) == 1 else 2])),
        close_looks=draw(st.integers(0, 2)),
        most_new=draw(st.integers(0, 2)),
        props={prop: draw(st.integers(0, 3)) for prop in PROPS},
        set_up_seconds=30,
        rest_seconds=draw(st.sampled_from([0, 60])),
    )


def try_every_plan(problem: ClassProblem) -> tuple[ClassPlan, Score] | None:
    """Return a best plan without a breach, found by trying all; None where there is none."""
    best: tuple[ClassPlan, Score] | None = None
    every_block = list(_every_block(problem))
    for count in range(1, problem.most_blocks + 1):
        for blocks in product(every_block, repeat=count):
            plan = ClassPlan(problem.title, problem.people, blocks)
            score = score_plan(problem, plan)
            if not score.breaches and (best is None or score.points > best[1].points):
                best = (plan, score)
    return best


def _every_block(problem: ClassProblem) -> Iterator[PlannedBlock]:
    ids = [[version.lesson_id for version in problem.versions[who]] for who in problem.people]
    for count, family, lessons in product(COUNTS, FAMILIES, product(*ids)):
        for number in range(len(problem.people) + 1):
            for seen in combinations(problem.people, number):
                turns = tuple(
                    Turn(who, lesson, who in seen)
                    for who, lesson in zip(problem.people, lessons, strict=True)
                )
                block = PlannedBlock(count, family, turns)
                alone = ClassPlan("", problem.people, (block,))
                faults = {breach.fault for breach in score_plan(problem, alone).breaches}
                if not faults - {"no-warm-up"}:
                    yield block


def make_large_problem(seed: int, people: int = 12, lessons: int = 60) -> ClassProblem:
    """Make a class of many people and lessons, each at another place of the course."""
    random = Random(seed)  # noqa: S311  # no secret
    drawn = [
        Version(
            lesson_id=f"lesson-{number:02}",
            strand_id=f"strand-{number // 6}",
            count=random.choice((OWN_PACE, "4-1-4-1", "4-1-4-1", "3-1-3-1", "4-1-6-1")),
            family=random.choice(("lying", "lying", "kneeling", "upright")),
            is_loaded=random.random() < 0.4,
            seconds=random.choice((90, 120, 150, 180, 210, 240, 300, 360)),
            points=worth.KNOWN,
            props=random.choice(((), (("ball", 1),), (("block", 1),), (("strap", 1),))),
        )
        for number in range(lessons)
    ]
    everybody = tuple(f"C{number:02}" for number in range(1, people + 1))
    return ClassProblem(
        people=everybody,
        versions={who: _choose(random, drawn) for who in everybody},
        families=("lying", "kneeling", "upright"),
        seconds=3600,
        most_blocks=10,
        close_looks=2,
        most_new=2,
        props={"ball": 5, "block": 6, "strap": 8},
        set_up_seconds=30,
        rest_seconds=60,
    )


def _choose(random: Random, lessons: list[Version]) -> tuple[Version, ...]:
    chosen = []
    for lesson in lessons:
        if random.random() < 0.5:
            points = random.choice((worth.KNOWN, worth.KNOWN, worth.PRACTICE, worth.STEP))
            chosen.append(replace(lesson, points=points, is_new=points == worth.STEP))
    return tuple(chosen)
