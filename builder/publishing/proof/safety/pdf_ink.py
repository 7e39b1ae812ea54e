"""How well one letter can be read, from the dots of a page and those of the letter alone."""

from collections import Counter
from collections.abc import Iterable
from dataclasses import dataclass
from functools import lru_cache

from builder.publishing.proof.safety.pdf_frame import Rectangle
from builder.publishing.proof.safety.pdf_picture import Picture
from builder.sums.contrast import LEAST_FOR_TEXT, contrast_ratio

_MOST_LOST = 0.1
"""Share of a letter's dots that may be wrong; rounding of a place takes less. Ours."""
_CORE = 0.6
"""Ink covers at least this share of a dot that counts as the letter's, and as good as nothing of
one that counts as its ground. Ours."""
_GROUND = 0.04
_FAINTEST = 0.4
"""A letter whose darkest dot has less ink is too small to be judged. Ours."""
_SHIFTS = ((0, 0), (1, 0), (-1, 0), (0, 1), (0, -1))
"""The library moves a letter by a dot to even out a word's spaces."""
_COLOUR = 0xFFFFFF
_FULL = 255


@dataclass(frozen=True, slots=True)
class Ink:
    """What of a letter is seen."""

    contrast: float
    """Of the letter to what is around it (WCAG 2.2, 1.4.3), each by its middle dot."""
    lost: float
    """Share of the letter's dots without enough contrast to its ground."""
    foreign: float
    """Share of the ground's dots without enough contrast to the letter."""

    @property
    def is_read(self) -> bool:
        """Tell whether the letter can be read."""
        has_shape = self.lost <= _MOST_LOST and self.foreign <= _MOST_LOST
        return has_shape and self.contrast >= LEAST_FOR_TEXT


NOTHING = Ink(contrast=1.0, lost=1.0, foreign=0.0)


def measure_ink(seen: Picture, alone: Picture, box: Rectangle) -> Ink:
    """Measure a letter on a page, given its own dots alone in black on white."""
    best = NOTHING
    for shift in _SHIFTS:
        ink = _weigh(_pair_dots(seen, alone, box, shift))
        if ink.is_read:
            return ink
        best = min(best, ink, key=lambda found: (found.lost + found.foreign, -found.contrast))
    return best


def list_core_dots(seen: Picture, alone: Picture, box: Rectangle) -> list[int]:
    """Return the colours that a page has where a letter's ink should be."""
    pairs = _pair_dots(seen, alone, box, (0, 0))
    _, core = _part(pairs)
    return [colour for colour, _, count in core for _ in range(count)]


def _pair_dots(
    seen: Picture, alone: Picture, box: Rectangle, shift: tuple[int, int]
) -> Counter[tuple[int, int]]:
    """Count which colour stands where which grey of the letter alone should be."""
    across, down = shift
    window = seen.window
    left, top, right, bottom = window.find_dots(box)
    left, right = max(left - 1, 1), min(right + 1, window.width - 1)
    pairs: Counter[tuple[int, int]] = Counter()
    for row in range(max(top - 1, 1), min(bottom + 1, window.height - 1)):
        mask = alone.row(row - down, left - across, right - across)
        pairs.update(zip(seen.row(row, left, right), mask, strict=True))
    return pairs


_Dots = list[tuple[int, int, int]]


def _part(pairs: Counter[tuple[int, int]]) -> tuple[_Dots, _Dots]:
    """Part a letter's ground from its core: colour, depth of ink, number of dots."""
    dots = [(colour & _COLOUR, _FULL - grey, count) for (colour, grey), count in pairs.items()]
    deepest = max((depth for _, depth, _ in dots), default=0)
    if deepest < _FAINTEST * _FULL:
        return [], []
    ground = [dot for dot in dots if dot[1] <= _GROUND * _FULL]
    return ground, [dot for dot in dots if dot[1] >= _CORE * deepest]


def _weigh(pairs: Counter[tuple[int, int]]) -> Ink:
    ground, core = _part(pairs)
    if not ground or not core:
        return NOTHING
    paper = _find_middle((colour, count) for colour, _, count in ground)
    inks = [(_lift(colour, depth, paper), count) for colour, depth, count in core]
    ink = _find_middle(inks)
    lost = _share(inks, paper)
    foreign = _share([(colour, count) for colour, _, count in ground], ink)
    return Ink(_contrast(ink, paper), lost, foreign)


def _share(dots: list[tuple[int, int]], other: int) -> float:
    """Return the share of dots without enough contrast to another colour."""
    pale = sum(count for colour, count in dots if _contrast(colour, other) < LEAST_FOR_TEXT)
    return pale / sum(count for _, count in dots)


def _lift(colour: int, depth: int, paper: int) -> int:
    """Return the colour of ink that covers a part of its dot only."""
    if depth == _FULL:
        return colour
    lifted = 0
    for place in (16, 8, 0):
        ground = paper >> place & _FULL
        pure = ground + ((colour >> place & _FULL) - ground) * _FULL / depth
        lifted |= min(_FULL, max(0, round(pure))) << place
    return lifted


def _find_middle(dots: Iterable[tuple[int, int]]) -> int:
    """Return the colour that as many dots are brighter than as are darker."""
    ordered = sorted(dots, key=lambda dot: (_contrast(dot[0], 0), dot[0]))
    left = sum(count for _, count in ordered) / 2
    for colour, count in ordered:
        left -= count
        if left <= 0:
            return colour
    return ordered[-1][0]


@lru_cache(maxsize=65_536)
def _contrast(first: int, second: int) -> float:
    return contrast_ratio(_name(first), _name(second))


def _name(colour: int) -> str:
    """Return a colour as ``#rrggbb``; red is in the highest byte."""
    return f"#{colour:06x}"
