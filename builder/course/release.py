"""Releases: which version of a card was handed out from which day on, and why it was changed."""

from dataclasses import dataclass
from datetime import date
from functools import cached_property

from builder.course.audience import Audience


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


@dataclass(frozen=True)
class Ledger:
    """Every release of a course, oldest first."""

    releases: tuple[Release, ...]

    @cached_property
    def by_card(self) -> dict[tuple[str, Audience], tuple[Release, ...]]:
        """Return the releases of each card, oldest first, by lesson and audience."""
        cards: dict[tuple[str, Audience], tuple[Release, ...]] = {}
        for release in self.releases:
            card = release.lesson, release.audience
            cards[card] = (*cards.get(card, ()), release)
        return cards
