"""Air: no count asks too big a breath of any reference body at the drill's effort."""

import math
from collections.abc import Iterator
from itertools import chain

from builder import rules
from builder.course.course import Course
from builder.course.dose import Dose
from builder.course.lesson import Lesson
from builder.findings import Finding, Place
from builder.sums.air import (
    BIG_SHARE,
    SHORT_SET_SECONDS,
    AirShare,
    BreathSize,
    find_air_share,
    find_longest_cycle_seconds,
)
from builder.sums.counts import find_shorter_tempos

_RULES = {BreathSize.BIG: rules.BIG_BREATH, BreathSize.TOO_BIG: rules.BREATH_BEYOND_CAPACITY}


def find_big_breaths(course: Course) -> Iterator[Finding]:
    """Report counts whose sets of a minute and more need a big breath of a reference body.

    Rungs of a lesson's own ladder count too. Shorter sets are shown on the air chart only.
    """
    for lesson in course.lessons:
        tempo = lesson.drill.tempo
        if tempo is None or not isinstance(lesson.drill.dose, Dose):
            continue
        rungs = ((lesson.at(f"ladder.{n}"), rung) for n, rung in enumerate(lesson.ladder))
        for place, cycle in chain([(lesson.at("tempo"), tempo.cycle_seconds)], rungs):
            finding = _find_big_breath(course, lesson, place, cycle)
            if finding:
                yield finding
                break


def _find_big_breath(
    course: Course, lesson: Lesson, place: Place, cycle_seconds: float
) -> Finding | None:
    drill = lesson.drill
    if not isinstance(drill.dose, Dose) or drill.dose.breaths * cycle_seconds < SHORT_SET_SECONDS:
        return None
    bodies = course.reference_bodies
    shares = [find_air_share(cycle_seconds, drill.effort.met, body) for body in bodies]
    worst = max(shares, key=lambda share: share.share)
    if worst.size is BreathSize.EASY:
        return None
    return _RULES[worst.size].at(
        place,
        f"breaths of {cycle_seconds:g} s at {drill.effort.met:g} MET need "
        f"{worst.percent}% of what the {worst.body.name} can breathe in",
        _find_cure(course, lesson, cycle_seconds),
        *(_describe(share) for share in shares),
    )


def _find_cure(course: Course, lesson: Lesson, cycle_seconds: float) -> str:
    """Name the nearest tempo that is easy for every body, and the sets that are short enough."""
    drill, limits = lesson.drill, course.settings.limits
    longest = min(
        find_longest_cycle_seconds(drill.effort.met, body, BIG_SHARE)
        for body in course.reference_bodies
    )
    tempo = drill.tempo
    shorter = tempo and find_shorter_tempos(tempo, longest, limits.cycle_min_seconds)
    if tempo and cycle_seconds != tempo.cycle_seconds:
        count = f"end the ladder under {longest:.3g} s"
    else:
        count = f"count {shorter[0]}" if shorter else "take a lighter effort"
    breaths = _most_breaths(cycle_seconds)
    if not breaths:
        return count
    return f"{count}, or keep sets under a minute with {breaths} breaths at most"


def _most_breaths(cycle_seconds: float) -> int:
    """Return how many breaths a set may have that is shorter than a minute."""
    return math.ceil(SHORT_SET_SECONDS / cycle_seconds) - 1


def _describe(share: AirShare) -> str:
    return (
        f"{share.body}: {share.needed.tidal_ml / 1000:.1f} of "
        f"{share.capacity.median_ml / 1000:.1f} L, {share.percent}%"
    )
