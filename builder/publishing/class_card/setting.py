"""Settings of a class card, the most roomy first; what gives way is told by the level."""

from dataclasses import dataclass
from enum import IntEnum

from builder.drawing.figure.pair import Room


class Level(IntEnum):
    """How close a card's parts stand; figures give way last."""

    WIDE = 0
    """Each person has a line of their own, and each box its word."""
    CLOSE = 1
    """Lessons stand two to a row, people side by side by first names, boxes without words."""
    TERSE = 2
    """What to look at stands only where a coach looks closely; counts are figures alone."""
    TIGHT = 3
    """The smallest figures, one spare block; a block may run on, and says so."""
    UNDRAWN = 4
    """As tight, without figures: for a class that can't be printed with them."""


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
    def is_terse(self) -> bool:
        """Tell whether the coach's secondary words give way."""
        return self.level >= Level.TERSE

    @property
    def is_tight(self) -> bool:
        """Tell whether a block may run on from one page to the next."""
        return self.level >= Level.TIGHT

    @property
    def figure_room(self) -> Room | None:
        """Return the room of a figure; None where figures give way."""
        return _FIGURE_ROOMS.get(self.level)

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
_FIGURE_ROOMS = {
    Level.WIDE: Room(24, 20),
    Level.CLOSE: Room(18, 11),
    Level.TERSE: Room(18, 10),
    Level.TIGHT: Room(16, 8),
}
"""A body that lies is as broad as its room, one that sits or stands as high (ours)."""
_SIZES = {
    Level.WIDE: (12.0, 11.5, 11.0, 10.5, 10.0),
    Level.CLOSE: (11.0, 10.5, 10.0, 9.5, 9.0),
    Level.TERSE: (10.5, 10.0, 9.5, 9.0),
    Level.TIGHT: (10.0, 9.5, 9.0),
    Level.UNDRAWN: (9.0,),
}
SETTINGS = tuple(ClassSetting(points, level) for level in Level for points in _SIZES[level])
"""Every setting, the most roomy first; larger type without figures would hide smaller with them."""
