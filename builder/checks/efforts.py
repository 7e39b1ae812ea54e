"""Efforts: a MET value is the one that its edition gives its code."""

from collections.abc import Iterator

from builder import rules
from builder.course.course import Course
from builder.findings import Finding
from builder.sums.energy import ACTIVITIES, Edition, find_met
from builder.sums.validity import OutsideValidityError

_ROUNDING = 1e-9


def find_efforts_unlike_source(course: Course) -> Iterator[Finding]:
    """Report efforts whose value isn't the published one; codes not listed here are let be."""
    for effort in course.vocabulary.efforts.values():
        if effort.edition not in set(Edition) or effort.code not in ACTIVITIES:
            continue
        edition = Edition(effort.edition)
        place = course.settings.at(f"efforts.{effort.id}.met")
        try:
            published = find_met(effort.code, edition)
        except OutsideValidityError as error:
            yield rules.EFFORT_UNLIKE_SOURCE.at(
                place, f'the effort "{effort.id}" has no source: {error}', "name the other edition"
            )
            continue
        if abs(effort.met - published) > _ROUNDING:
            yield rules.EFFORT_UNLIKE_SOURCE.at(
                place,
                f'the effort "{effort.id}" is {effort.met:g} MET, the {edition} gives '
                f"{published:g} for {effort.code}",
                f"write {published:g}, or name the source of {effort.met:g}",
            )
