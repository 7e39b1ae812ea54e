"""The fit: the largest type at which a card's words stay on its page."""

from collections.abc import Callable
from dataclasses import dataclass

from builder.publishing.cards.guess import Guess
from builder.publishing.cards.pdf import Layout
from builder.publishing.cards.setting import Setting
from builder.sums.paper import Paper

_STEP_POINTS = 0.5
_DENSE_OVER_FLOOR = 1.0
"""On a roomy paper parts run together only where labels leave no room at the floor."""
_SURE = 1.0
"""A size that should overfill its page by so much isn't tried, where a smaller one fits."""


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


def fit_side(lay_out: Callable[[Setting], Layout], paper: Paper, guess: Guess) -> Fit:
    """Find the first setting in which a side fits, trying as few as possible.

    The ``guess`` only helps to choose what to try; each setting tried is laid out and measured.
    Where nothing fits, the answer is the smallest setting with what is too long.
    """
    settings = list_settings(paper)
    height = paper.height_mm - 2 * paper.margin_mm
    first, last = 0, len(settings) - 1
    error = 1.0
    best: Fit | None = None
    while best is None or first <= last:
        fitting = (at for at in range(first, last) if guess(settings[at]) * error <= 1)
        index = next(fitting, last)
        if best and not best.excess_mm and guess(settings[index]) * error > _SURE:
            break
        setting = settings[index]
        layout = lay_out(setting)
        filled = measure_filled(layout, paper)
        error = filled / guess(setting)
        if filled <= 1:
            last = index - 1
            best = Fit(layout, setting, 0)
        else:
            first = index + 1
            if best is None or best.excess_mm:
                best = Fit(layout, setting, (filled - 1) * height)
    return best


def measure_filled(layout: Layout, paper: Paper) -> float:
    """Return what share of a page its words take, those at its foot included."""
    height = paper.height_mm - 2 * paper.margin_mm
    marks = layout.marks
    overlap = marks["end"].top_mm - marks["low"].top_mm
    return (height + overlap) / height


def _steps(top: float, bottom: float) -> list[float]:
    count = round((top - bottom) / _STEP_POINTS)
    return [bottom + _STEP_POINTS * step for step in range(count, -1, -1)]
