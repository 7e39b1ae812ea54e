"""Releases: which version of a card was handed out from which day on, and why it was changed."""

from dataclasses import dataclass
from datetime import date

from builder.course.audience import Audience
from builder.findings import Place


@dataclass(frozen=True, slots=True)
class Release:
    """One version of a lesson's card."""

    lesson: str
    """Its id; a lesson that is gone keeps its releases."""
    audience: Audience
    code: str
    on: date
    why: str
    """What changed, in one line for whoever holds an older card."""


@dataclass(frozen=True, slots=True)
class Ledger:
    """Every release of a course, oldest first."""

    releases: tuple[Release, ...]
    place: Place

    @property
    def newest(self) -> dict[tuple[str, Audience], Release]:
        """Return the newest release of each card, by lesson and audience."""
        return {(release.lesson, release.audience): release for release in self.releases}

    def of(self, lesson_id: str, audience: Audience) -> tuple[Release, ...]:
        """Return the releases of one card, oldest first."""
        return tuple(
            release
            for release in self.releases
            if release.lesson == lesson_id and release.audience is audience
        )
