"""Pace: how many classes a lesson is expected to need, by what a person's lessons took so far."""

import math
from collections.abc import Sequence
from fractions import Fraction

from builder.course.course import Course
from builder.course.lesson import Lesson
from builder.planning.standing import OBSERVE, Standing
from builder.records.attendance import Outcome
from builder.sums.citation import ours
from builder.sums.ladder import READY_IN_A_ROW

OWN_PACE = ours(
    "own-pace",
    "a lesson is expected to need as many classes as the person's lessons took in the mean, "
    "rounded up, and two at least; a check needs one",
)


def find_pace(course: Course, standing: Standing) -> int:
    """Return the mean number of classes that a drill took until it was known, rounded up.

    Drills that aren't known yet don't count; two, the fewest that show readiness, where there
    are none (ours).
    """
    took = [
        number
        for name, outcomes in standing.tries.items()
        if name in course.by_id and not is_check(course.by_id[name])
        for number in [_count_until_known(outcomes)]
        if number
    ]
    if not took:
        return READY_IN_A_ROW
    return max(READY_IN_A_ROW, math.ceil(Fraction(sum(took), len(took))))


def count_classes(lesson: Lesson, standing: Standing, pace: int) -> int:
    """Return how many classes more a lesson is expected to need, one at least (ours).

    What was begun counts: the classes so far, and a last one that ended ready.
    """
    if is_check(lesson) or lesson.id in standing.once_more:
        return 1
    outcomes = standing.tries.get(lesson.id, ())
    was_ready = bool(outcomes) and outcomes[-1] is Outcome.READY
    least = READY_IN_A_ROW - was_ready
    return max(least, pace - len(outcomes))


def is_check(lesson: Lesson) -> bool:
    """Tell whether a lesson looks and measures, and is no drill."""
    return lesson.strand.aim == OBSERVE


def _count_until_known(outcomes: Sequence[Outcome]) -> int:
    in_a_row = 0
    for number, outcome in enumerate(outcomes, start=1):
        in_a_row = in_a_row + 1 if outcome is Outcome.READY else 0
        if in_a_row == READY_IN_A_ROW:
            return number
    return 0
