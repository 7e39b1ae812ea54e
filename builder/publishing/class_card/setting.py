"""Settings of a class card, the most roomy first; what gives way is told by the level."""

from dataclasses import dataclass
from enum import IntEnum


class Level(IntEnum):
    """How close a card's parts stand."""

    WIDE = 0
    """Each person has a line of their own, and each box its word."""
    DENSE = 1
    """People stand side by side by first names; a lesson's figure comes once."""
    BARE = 2
    """No figures; what to look at stands where a coach looks closely."""
    SPLIT = 3
    """As bare, and a block may run on from one page to the next."""


@dataclass(frozen=True, slots=True)
class ClassSetting:
    """How large a card's type is, and how close its parts stand."""

    points: float
    level: Level

    @property
    def is_wide(self) -> bool:
        """Tell whether each person has a line of their own."""
        return self.level is Level.WIDE

    @property
    def is_bare(self) -> bool:
        """Tell whether figures give way."""
        return self.level >= Level.BARE

    @property
    def title_points(self) -> float:
        """Return the size of lessons and times, which are read from a metre away."""
        return max(TITLE_FLOOR_POINTS, self.points * _TITLE_SHARE)


FLOOR_POINTS = 9.0
"""No type on a class card is smaller (ours)."""
TITLE_FLOOR_POINTS = 14.0
"""Lessons and times are no smaller (ours)."""
MOST_PAGES = 2
_TITLE_SHARE = 1.4
SETTINGS = {
    Level.WIDE: (12.0, 11.5, 11.0, 10.5, 10.0),
    Level.DENSE: (12.0, 11.0, 10.5, 10.0, 9.5, 9.0),
    Level.BARE: (11.0, 10.5, 10.0, 9.5, 9.0),
    Level.SPLIT: (9.5, 9.0),
}
"""Sizes of type on each level, in points, the largest first."""
