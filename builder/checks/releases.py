"""Releases: a card that changed after it was handed out."""

from collections.abc import Iterator

from builder import rules
from builder.course.course import Course
from builder.findings import Finding
from builder.sums.version import find_unreleased


def find_changed_since_release(course: Course) -> Iterator[Finding]:
    """Note each card that says something else than its newest release."""
    for card in find_unreleased(course):
        if card.last:
            yield rules.CHANGED_SINCE_RELEASE.at(
                card.lesson.at("title"),
                f"the {card.audience} card isn't the one that was released on {card.last.on}"
                f" ({card.last.code}, now {card.code})",
                'run `tempoleaf release --why "what changed"` before you hand it out',
            )
