"""The fit: the largest type at which a card's words stay on its page."""

from collections.abc import Callable
from dataclasses import dataclass

from builder.publishing.cards.pdf import Layout
from builder.publishing.cards.setting import Setting
from builder.sums.paper import Paper

_STEP_POINTS = 0.5
_DENSE_OVER_FLOOR = 1.0
"""On a roomy paper parts run together only where labels leave no room at the floor."""
_FULL_ENOUGH = 0.92
"""A page filled so far isn't tried at the next size up."""
_AIM = 0.99
_GROWTH = 1.6
"""Height grows with type between linearly (short lines) and squared (lines that wrap)."""
_DENSE_SHARE = 0.77
"""About how much of the height is left when parts run together."""
_PLAIN_SHARE = 0.82
"""Small papers leave out the drawing of a breath without a count, and their margins are small."""
_FIXED_WORDS = 400
_ROOM_PER_WORD = 1.02
"""A first guess: each word takes so many square millimetres at one point, and rules, gaps and
drawings as much as so many words (measured on the starter course)."""


@dataclass(frozen=True, slots=True)
class Fit:
    """A card side at the type it got."""

    layout: Layout
    setting: Setting
    excess_mm: float
    """How much too long it is at the smallest type; 0 where it fits."""


def list_settings(paper: Paper) -> tuple[Setting, ...]:
    """Return every setting a paper allows, largest type first, the legible floor last.

    A figure gives way only where words are at the floor already.
    """
    floor = paper.floor_points
    roomy = _steps(paper.top_points, floor) if paper.is_roomy else []
    dense = _steps(_DENSE_OVER_FLOOR + floor if paper.is_roomy else paper.top_points, floor)
    return (
        *(Setting(points, is_dense=False) for points in roomy),
        *(Setting(points, is_dense=True) for points in dense),
        Setting(floor, is_dense=True, has_small_figure=True),
    )


def fit_side(lay_out: Callable[[Setting], Layout], paper: Paper, words: int) -> Fit:
    """Find the first setting in which a side fits, trying as few as possible.

    The number of ``words`` only helps to guess where to begin. Where nothing fits, the answer is
    the smallest setting with what is too long.
    """
    settings = list_settings(paper)
    height = paper.height_mm - 2 * paper.margin_mm
    room = (paper.width_mm - 2 * paper.margin_mm) * height
    first, last = 0, len(settings) - 1
    guess = (words + _FIXED_WORDS) * _ROOM_PER_WORD / room
    guess *= 1 if paper.is_roomy else _PLAIN_SHARE
    index = _predict(settings, Setting(1, is_dense=False), guess)
    best: Fit | None = None
    while True:
        layout = lay_out(settings[index])
        filled = measure_filled(layout, paper)
        if filled > 1:
            first = index + 1
            if best is None or best.excess_mm:
                best = Fit(layout, settings[index], (filled - 1) * height)
        else:
            last = index - 1
            best = Fit(layout, settings[index], 0)
        if best is not None and (first > last or _FULL_ENOUGH <= filled <= 1):
            return best
        index = min(max(_predict(settings, settings[index], filled), first), last)


def measure_filled(layout: Layout, paper: Paper) -> float:
    """Return what share of a page its words take, those at its foot included."""
    height = paper.height_mm - 2 * paper.margin_mm
    marks = layout.marks
    overlap = marks["end"].top_mm - marks["low"].top_mm
    return (height + overlap) / height


def _predict(settings: tuple[Setting, ...], known: Setting, filled: float) -> int:
    """Return the first setting that should fit, from how full the page is in another one."""
    for index, setting in enumerate(settings):
        if filled * _weigh(setting) / _weigh(known) <= _AIM:
            return index
    return len(settings) - 1


def _weigh(setting: Setting) -> float:
    share = _DENSE_SHARE if setting.is_dense else 1.0
    return share * float(setting.points**_GROWTH)


def _steps(top: float, bottom: float) -> list[float]:
    count = round((top - bottom) / _STEP_POINTS)
    return [bottom + _STEP_POINTS * step for step in range(count, -1, -1)]
