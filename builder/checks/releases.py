"""Releases: a card that changed after it was handed out."""

from collections.abc import Iterator

from builder import rules
from builder.course.course import Course
from builder.findings import Finding
from builder.sums.version import find_changed


def find_changed_since_release(course: Course) -> Iterator[Finding]:
    """Note each card that says something else than its newest release."""
    settings = course.settings
    option = f" --language {settings.language}" if settings.is_translation else ""
    for card in find_changed(course):
        if card.last:
            yield rules.CHANGED_SINCE_RELEASE.at(
                card.lesson.at("title"),
                f"the {card.audience} card isn't the one that was released on {card.last.on}"
                f" ({card.last.code}, now {card.code})",
                f'run `tempoleaf release{option} --why "what changed"` before you hand it out',
            )
