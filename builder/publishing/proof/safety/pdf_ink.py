"""How well letters can be read, from the dots of a page and those of the letters alone."""

from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from functools import lru_cache
from itertools import groupby

from builder.publishing.proof.safety.pdf_frame import Rectangle
from builder.publishing.proof.safety.pdf_letters import Letter
from builder.publishing.proof.safety.pdf_picture import Picture
from builder.sums.contrast import LEAST_FOR_TEXT, contrast_ratio

_MOST_LOST = 0.08
"""Share of a letter's own dots that may be wrong. Ours."""
_MOST_FOREIGN = 0.3
"""Share of the dots around it that may be: a line under words crosses a few. Ours."""
_CORE = 0.6
"""Of the deepest dot: what has so much ink counts as the letter's. Ours."""
_GROUND = 0.04
"""Of a dot: what has less ink counts as the letter's ground. Ours."""
_DEEP = 0.85
"""Of the deepest dot: what has so much ink tells its colour best. Ours."""
_FAINTEST = 0.4
"""A letter whose darkest dot has less ink is too small to be judged. Ours."""
_ROUGH = 0.95
"""A single dot's contrast is known as well as this: the library cuts off fractions. Ours."""
_EVEN = 0.8
"""A line is of one colour where none of its dots has less than this of its contrast. Ours."""
_WAIST = (0.1, 0.45)
"""Ems over the line: where letters are crossed out, between what lies under words and the tops
of small letters. Ours."""
_MOST_CROSSED = 0.15
_SAME = 2.0
"""Grounds with less contrast to each other may change under a letter, as tints do. Ours."""
_FLAWLESS = 0.002
"""Share of a whole line's ground that may be wrong, as by a neighbour's edge: fewer dots than
make one letter unreadable. Ours."""
_CUT = 0.3
"""What is cut off, of one step in 255, where ink covers a part of a dot; found by trying. Ours."""
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
        has_shape = self.lost <= _MOST_LOST and self.foreign <= _MOST_FOREIGN
        return has_shape and self.contrast >= LEAST_FOR_TEXT


NOTHING = Ink(contrast=1.0, lost=1.0, foreign=0.0)


def measure_letters(picture: Picture, letters: Sequence[Letter]) -> dict[Letter, Ink]:
    """Measure letters; those of one line together where the line is flawless."""
    found = {}
    for _, group in groupby(letters, key=lambda letter: (letter.y, letter.face, letter.matrix)):
        line = tuple(group)
        whole = measure_ink(picture, Rectangle.around([letter.box for letter in line]), _EVEN)
        flawless = whole.is_read and not whole.lost and whole.foreign < _FLAWLESS
        for letter in line:
            found[letter] = whole if flawless else measure_letter(picture, letter)
    return found


def measure_letter(picture: Picture, letter: Letter) -> Ink:
    """Measure a letter; one that is crossed out can't be read."""
    ink = measure_ink(picture, letter.box)
    if ink.is_read and _is_crossed(picture, letter):
        return replace(ink, foreign=1.0)
    return ink


def _is_crossed(picture: Picture, letter: Letter) -> bool:
    """Tell whether anything but the letter is seen across its middle."""
    ground, _ = _part(picture, _find_waist(letter), 0)
    if not ground:
        return False
    paper = _find_middle((colour, count) for colour, _, count in ground)
    crossed = sum(count for colour, _, count in ground if _contrast(colour, paper) > _SAME)
    return crossed > _MOST_CROSSED * sum(count for _, _, count in ground)


def _find_waist(letter: Letter) -> Rectangle:
    """Return the part of a letter's box where a line through it would run."""
    a, b, c, d = letter.matrix
    box = letter.box
    if abs(a) >= abs(b):
        low, high = sorted(letter.y + share * d for share in _WAIST)
        return replace(box, bottom=low, top=high)
    low, high = sorted(letter.x + share * c for share in _WAIST)
    return replace(box, left=low, right=high)


def measure_ink(picture: Picture, box: Rectangle, even: float = 0.0) -> Ink:
    """Measure a letter or a line, whose dots may need a share of the middle dot's contrast."""
    ground, core = _part(picture, box)
    if not ground or not core:
        return NOTHING
    bare = min(depth for _, depth, _ in ground)
    paper = _find_middle((colour, count) for colour, depth, count in ground if depth == bare)
    inks = [(_lift(colour, depth, paper), count) for colour, depth, count in core]
    deepest = max(depth for _, depth, _ in core)
    deep = (
        lifted for lifted, (_, depth, _) in zip(inks, core, strict=True) if depth >= _DEEP * deepest
    )
    ink = _find_middle(deep)
    contrast = _contrast(ink, paper)
    least = max(LEAST_FOR_TEXT * _ROUGH, contrast * even)
    lost = _share(inks, paper, least)
    foreign = _share([(colour, count) for colour, _, count in ground], ink, least)
    return Ink(contrast, lost, foreign)


def list_core_dots(picture: Picture, box: Rectangle) -> list[int]:
    """Return the colours that a page has where a letter's ink should be, row by row."""
    dots = [dot for row in picture.list_rows(box) for dot in row]
    deepest = max((_find_depth(dot) for dot in dots), default=0)
    return [dot & _COLOUR for dot in dots if _find_depth(dot) >= max(1, _CORE * deepest)]


def measure_elsewhere(picture: Picture, box: Rectangle) -> float:
    """Return the share of a letter's ground that is dark, where letters are black on white."""
    ground, _ = _part(picture, box)
    dark = sum(count for colour, _, count in ground if colour & _FULL < _FULL / 2)
    return dark / max(1, sum(count for _, _, count in ground))


def _find_depth(dot: int) -> int:
    """Return how much of a dot the letter's ink should cover, of 255."""
    return _FULL - (dot >> 24)


_Dots = list[tuple[int, int, int]]


def _part(picture: Picture, box: Rectangle, more: int = 1) -> tuple[_Dots, _Dots]:
    """Part a letter's ground from its core: colour, depth of ink, number of dots."""
    counts: Counter[int] = Counter()
    for row in picture.list_rows(box, more):
        counts.update(row)
    dots = [(dot & _COLOUR, _find_depth(dot), count) for dot, count in counts.items()]
    deepest = max((depth for _, depth, _ in dots), default=0)
    if deepest < _FAINTEST * _FULL:
        return [], []
    ground = [dot for dot in dots if dot[1] <= _GROUND * _FULL]
    return ground, [dot for dot in dots if dot[1] >= _CORE * deepest]


def _share(dots: list[tuple[int, int]], other: int, least: float) -> float:
    """Return the share of dots without enough contrast to another colour."""
    pale = sum(count for colour, count in dots if _contrast(colour, other) < least)
    return pale / sum(count for _, count in dots)


@lru_cache(maxsize=65_536)
def _lift(colour: int, depth: int, paper: int) -> int:
    """Return the colour of ink that covers a part of its dot only."""
    if depth == _FULL:
        return colour
    lifted = 0
    for place in (16, 8, 0):
        ground = paper >> place & _FULL
        pure = ground + ((colour >> place & _FULL) + _CUT - ground) * _FULL / depth
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
