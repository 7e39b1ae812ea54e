"""Demand: a lesson asks for one new thing at a time."""

from collections.abc import Iterator

from builder import rules
from builder.course.course import Course
from builder.course.demand import AXES, Demand, hardest
from builder.course.lesson import Lesson
from builder.findings import Finding

MOST_AXES_RISING = 2
MOST_RANKS_RISING = 1
_NO_COMPANY_FOR_A_HOLD = {"position": "a new position", "limbs": "more moving limbs"}


def find_steep_demand(course: Course) -> Iterator[Finding]:
    """Report lessons that ask for too many new things, or too much of one."""
    for lesson, before, now in _steps(course):
        rises = now.risen_over(before)
        rows = _rows(lesson, before, now)
        if len(rises) > MOST_AXES_RISING:
            yield rules.TOO_MANY_DEMANDS.at(
                lesson.at("builds_on"),
                f"{len(rises)} demands rise at once ({', '.join(rises)})",
                f"let at most {MOST_AXES_RISING} rise, with a lesson in between",
                *rows,
            )
        for axis, ranks in rises.items():
            if ranks > MOST_RANKS_RISING:
                yield rules.DEMAND_JUMP.at(
                    lesson.at("builds_on"),
                    f"{axis} rises by {ranks} ranks",
                    "let it rise by one, or build on a lesson that asks more of it",
                    *rows,
                )


def find_hold_with_new_demand(course: Course) -> Iterator[Finding]:
    """Report a new hold that comes together with a new position or moving limbs."""
    for lesson, before, now in _steps(course):
        rises = now.risen_over(before)
        company = [words for axis, words in _NO_COMPANY_FOR_A_HOLD.items() if axis in rises]
        if "hold" in rises and company:
            yield rules.HOLD_WITH_NEW_DEMAND.at(
                lesson.at("tempo"),
                f"a new hold comes together with {' and '.join(company)}",
                "teach the hold first in what is already known",
                *_rows(lesson, before, now),
            )


def _steps(course: Course) -> Iterator[tuple[Lesson, Demand, Demand]]:
    """Yield each lesson that builds on something with the demand before it and its own."""
    for lesson in course.lessons:
        names = course.graph[lesson.id]
        if names and not course.unreadable & set(lesson.builds_on):
            before = hardest(course.demands[name] for name in names)
            yield lesson, before, course.demands[lesson.id]


def _rows(lesson: Lesson, before: Demand, now: Demand) -> tuple[str, str, str]:
    name = max(len(lesson.id), len("before"))
    head = f"{'':{name}}  {'  '.join(AXES)}"
    return (head, _row("before", before, name), _row(lesson.id, now, name))


def _row(label: str, demand: Demand, width: int) -> str:
    cells = (f"{rank:>{len(axis)}}" for axis, rank in zip(AXES, demand.ranks, strict=True))
    return f"{label:{width}}  {'  '.join(cells)}"
