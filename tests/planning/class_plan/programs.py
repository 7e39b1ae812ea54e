"""Random programs of the starter course: people, what is on record of them, and a class."""

from dataclasses import dataclass, replace
from datetime import date, timedelta
from functools import cache
from random import Random

from builder.course.reference_body import LungReference
from builder.planning.class_plan.planned import ImpossibleClass, PlannedClass, Planner
from builder.records.attendance import Attendance, Outcome
from builder.records.class_order import ClassOrder
from builder.records.person import Person
from builder.records.program import Program
from builder.records.result import Result
from tests.planning.starter import read_starter

DAY = date(2026, 11, 24)
"""The day of every class."""
_ANSWERS = {
    "known": ("new", "breath", "brace"),
    "floor": ("easy", "chair", "no"),
    "kneel": ("yes", "no"),
}
_ENDINGS = ("r", "rr", "a", "ra", "e", "ee", "eer", "rre", "rree", "aaa", "rrr")
"""What became of a lesson, day by day: ready, again, easier."""
_OUTCOMES = {outcome.value[0]: outcome for outcome in Outcome}


@dataclass(frozen=True)
class Case:
    """A program and a class that is asked of it."""

    program: Program
    order: ClassOrder

    def make_planner(self) -> Planner:
        return Planner(read_starter(), self.program, self.order)

    def plan(self) -> PlannedClass | ImpossibleClass:
        return self.make_planner().plan()

    def shuffle(self, random: Random) -> "Case":
        """Change what is no matter: the order of people, of rows of one day, and of props."""
        people = random.sample([*self.program.people.items()], len(self.program.people))
        rows = random.sample(self.program.attendance, len(self.program.attendance))
        order = replace(
            self.order,
            people=tuple(random.sample(self.order.people, len(self.order.people))),
            strands=tuple(random.sample(self.order.strands, len(self.order.strands))),
            props=dict(random.sample([*self.order.props.items()], len(self.order.props))),
        )
        rows.sort(key=lambda row: row.day)
        return Case(replace(self.program, people=dict(people), attendance=tuple(rows)), order)


@cache
def plan_case(seed: int) -> tuple[Case, PlannedClass | ImpossibleClass]:
    """Return a case and what became of it; planned once for all tests."""
    case = make_case(seed)
    return case, case.plan()


def make_case(seed: int) -> Case:
    random = Random(seed)  # noqa: S311  # no secret
    people = {f"P{number}": _make_person(random, f"P{number}") for number in range(1, 6)}
    rows = [row for person in people for row in _attend(random, person)]
    results = [row for person in people for row in _measure(random, person)]
    program = Program(
        people,
        tuple(sorted(results, key=lambda row: row.day)),
        tuple(sorted(rows, key=lambda row: row.day)),
    )
    return Case(program, _ask(random, sorted(people)))


def _make_person(random: Random, name: str) -> Person:
    known = sorted(read_starter().vocabulary.conditions)
    conditions = tuple(random.sample(known, random.choice((0, 0, 0, 1, 1, 2))))
    days = {each: DAY - timedelta(days=random.randint(-1, 300)) for each in conditions}
    cleared = {each: day for each, day in days.items() if random.random() < 0.95}
    body = random.random() < 0.6
    return Person(
        name,
        name,
        birth_year=random.randint(1940, 2006) if body else None,
        lung_reference=random.choice([*LungReference]) if body else None,
        height_cm=random.randint(150, 190) if body else None,
        weight_kg=random.randint(45, 110) if body else None,
        conditions=conditions,
        cleared=cleared,
        hands_on=random.choice((None, DAY)),
    )


def _attend(random: Random, person: str) -> list[Attendance]:
    """Go along the course to somewhere, or in no order at all; sometimes stay away since."""
    order = read_starter().teaching_order
    reached = random.randint(0, len(order))
    is_sound = random.random() < 0.7
    lessons = list(order[:reached]) if is_sound else random.sample(order, random.randint(0, 25))
    last = DAY - timedelta(days=random.choice((1, 1, 2, 5, 60)))
    rows = []
    for number, lesson in enumerate(reversed(lessons)):
        is_open = not is_sound or number < 6 or random.random() < 0.1
        letters = random.choice(_ENDINGS) if is_open else "rr"
        end = last - timedelta(days=2 * number + (random.choice((0, 50)) if number > 9 else 0))
        for back, letter in enumerate(reversed(letters)):
            day = end - timedelta(days=back)
            rows.append(Attendance(day, person, lesson, _OUTCOMES[letter]))
    return rows


def _measure(random: Random, person: str) -> list[Result]:
    results = []
    for question, answers in _ANSWERS.items():
        if random.random() < 0.7:
            day = DAY - timedelta(days=random.randint(1, 90))
            results.append(Result(day, person, question, None, random.choice(answers)))
    for measure, lesson, values in (
        ("first-mover", "hands-check-sitting", ("belly", "chest", "both")),
        ("first-mover", "hands-check-lying", ("belly", "chest", "both")),
        ("rib-sides", "rib-sides-check", ("even", "left first", "right first")),
        ("breath-hold-seconds", "comfortable-hold", (4, 6.5, 8, 12, 20, 31)),
        ("breath-hold-seconds", "comfortable-hold", (4, 6.5, 8, 12, 20, 31)),
    ):
        if random.random() < 0.7:
            day = DAY - timedelta(days=random.choice((0, 1, 3, 20, 60)))
            trials = random.sample(values, random.choice((1, 1, 2)))
            results += [
                Result(day, person, measure, None, value, lesson_id=lesson) for value in trials
            ]
    return results


def _ask(random: Random, people: list[str]) -> ClassOrder:
    words = read_starter().vocabulary
    props = [name for name in words.props if random.random() < 0.4]
    strands = sorted(words.strands)
    return ClassOrder(
        day=DAY,
        name="random",
        minutes=random.randint(20, 90),
        people=tuple(random.sample(people, random.randint(1, 4))),
        coaches=tuple(f"K{number}" for number in range(random.randint(1, 3))),
        strands=tuple(random.sample(strands, random.randint(2, 6)))
        if random.random() < 0.5
        else (),
        props={name: random.choice((0, 1, 2, 4, 8)) for name in props},
        most_blocks=random.randint(2, 10),
        rest_seconds=random.choice((0, 45, 60, 120)),
        most_new=random.randint(0, 3),
    )
