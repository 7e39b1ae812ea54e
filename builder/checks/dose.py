"""Dose: even numbers, rests, time, practice days and the steps of a ladder."""

from collections.abc import Iterator
from itertools import pairwise

from builder import rules
from builder.course.course import Course
from builder.course.dose import Dose, Sides
from builder.course.trait import is_loaded
from builder.course.vocabulary import Strand
from builder.findings import Finding
from builder.sums.ladder import MOST_GROWTH
from builder.sums.practice import Kind, find_frequency
from builder.sums.timing import time_drill

_ROUNDING = 1e-9


def find_odd_alternations(course: Course) -> Iterator[Finding]:
    """Report sets that alternate sides over an odd number of breaths."""
    for lesson in course.lessons:
        dose = lesson.drill.dose
        if isinstance(dose, Dose) and dose.sides is Sides.ALTERNATE and dose.breaths % 2:
            yield rules.ODD_ALTERNATION.at(
                lesson.at("dose.breaths"),
                f"{dose.breaths} breaths in turn leave one side short",
                f"give {dose.breaths + 1} breaths, or another even number",
            )


def find_missing_rests(course: Course) -> Iterator[Finding]:
    """Report loaded drills of several sets without a rest between them."""
    for lesson in course.lessons:
        dose = lesson.drill.dose
        if not isinstance(dose, Dose) or dose.sets == 1 or dose.rest_seconds:
            continue
        if is_loaded(lesson.drill):
            yield rules.REST_MISSING.at(
                lesson.at("dose.rest"),
                f"{dose.sets} sets of a loaded drill follow each other without a rest",
                "give the rest between sets in seconds",
            )


def find_long_lessons(course: Course) -> Iterator[Finding]:
    """Report lessons that take longer than their strand allows."""
    for lesson in course.lessons:
        time = time_drill(lesson.drill, course.settings.limits.set_up_seconds)
        limit = lesson.strand.minutes
        if time.lesson_seconds > limit * 60:
            yield rules.LESSON_TOO_LONG.at(
                lesson.at("dose"),
                f"the lesson takes {time.lesson_seconds / 60:.3g} minutes, the strand "
                f'"{lesson.strand.id}" allows {limit}',
                "take sets, breaths or rest away",
            )


def find_practice_days_out_of_range(course: Course) -> Iterator[Finding]:
    """Report strands of work that are practised too seldom, or with no day between."""
    frequency = find_frequency(Kind.CONTROL)  # resistance has the same days
    low, high = frequency.least_days, frequency.most_days
    for index, strand in enumerate(course.vocabulary.strands.values()):
        days = strand.days_a_week
        if days is None or low <= days <= high or not _is_work(course, strand):
            continue
        why = "too few to gain by" if days < low else "so many that no day lies between"
        yield rules.PRACTICE_DAYS_OUT_OF_RANGE.at(
            course.settings.at(f"strands.{index}.days_a_week"),
            f'the strand "{strand.id}" asks for {days} days a week, {why}',
            f"give {low} or {high} days, with a day between",
        )


def find_steep_ladders(course: Course) -> Iterator[Finding]:
    """Report rungs that are over 10 % longer than the rung before."""
    for lesson in course.lessons:
        for index, (before, rung) in enumerate(pairwise(lesson.ladder), start=1):
            if rung > before * (1 + MOST_GROWTH) + _ROUNDING:
                yield rules.STEEP_LADDER.at(
                    lesson.at(f"ladder.{index}"),
                    f"the rung of {rung:g} s is {rung / before - 1:.0%} longer than "
                    f"the {before:g} s before it",
                    f"go up to {before * (1 + MOST_GROWTH):.3g} s at most, with a rung in between",
                )


def _is_work(course: Course, strand: Strand) -> bool:
    lessons = course.lessons_of(strand.id)
    return strand.aim == "work" or any(is_loaded(lesson.drill) for lesson in lessons)
