"""Placement: from answers to a first lesson in each strand, with the reason.

A pure table; `site_templates/assets/placement.js` is its twin for the self-check of the site.
"""

from collections.abc import Mapping
from dataclasses import dataclass

from builder.course.placement import Condition, Placement, Way

Answers = Mapping[str, str | float]
"""Question id to the id of an answer, or to seconds."""


@dataclass(frozen=True, slots=True)
class Start:
    """Where somebody starts in one strand."""

    strand_id: str
    lesson_id: str
    """Empty where the strand has to wait."""
    why: str


def place(table: Placement, answers: Answers, *, asks_first: bool) -> tuple[Start, ...]:
    """Return a start in each strand; none at all for who should ask a clinician first."""
    if asks_first:
        return ()
    starts = []
    for strand in table.starts:
        way = next(way for way in strand.ways if _fits(way, answers))
        starts.append(Start(strand.strand_id, way.lesson_id, way.why))
    return tuple(starts)


def _fits(way: Way, answers: Answers) -> bool:
    return all(_meets(condition, answers) for condition in way.conditions)


def _meets(condition: Condition, answers: Answers) -> bool:
    answer = answers.get(condition.question_id)
    if isinstance(answer, str):
        return answer in condition.answers
    if answer is None or (condition.from_seconds is None and condition.under_seconds is None):
        return False
    is_long = condition.from_seconds is None or answer >= condition.from_seconds
    return is_long and (condition.under_seconds is None or answer < condition.under_seconds)
