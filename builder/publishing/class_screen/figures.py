"""Figures of a class screen: each drawn once, and shown in as many tiles as need it."""

import re
from collections.abc import Iterable
from dataclasses import dataclass
from html import unescape

from markupsafe import Markup

from builder.course.figure import Figure
from builder.drawing.figure.pair import Room, draw_pair
from builder.drawing.labels import Labels
from builder.publishing.pages.svg_markup import place_svg
from builder.publishing.views.class_view import TurnView

_ROOM = Room(width_mm=58, tallest_mm=34, letter_mm=3.4)
_FRAME = re.compile(r'viewBox="([^"]*)"')
_ROOT = re.compile(r"^<svg\b[^>]*>|</svg>$")
_WORDS = re.compile(r"<(title|desc)>(.*?)</\1>\s*", re.DOTALL)


@dataclass(frozen=True, slots=True)
class ScreenFigure:
    """One figure, as a symbol that tiles point to."""

    id: str
    figure: Figure
    frame: str
    """The view box of its symbol."""
    parts: Markup
    words: str
    """What it shows, for those who don't see it."""


def draw_figures(turns: Iterable[TurnView], labels: Labels) -> tuple[ScreenFigure, ...]:
    """Draw the figures of some turns, each once, in the order in which they come."""
    drawn: list[ScreenFigure] = []
    for turn in turns:
        if turn.figure is not None and find_figure(drawn, turn.figure) is None:
            drawn.append(_draw(turn.figure, f"figure-{len(drawn)}", labels))
    return tuple(drawn)


def find_figure(drawn: Iterable[ScreenFigure], figure: Figure | None) -> ScreenFigure | None:
    """Return the drawing of a figure; None where there is none."""
    return next((each for each in drawn if each.figure == figure), None)


def _draw(figure: Figure, name: str, labels: Labels) -> ScreenFigure:
    svg = place_svg(draw_pair(figure, name, _ROOM, labels).svg)
    (frame,) = _FRAME.findall(svg)
    words = dict(_WORDS.findall(svg))
    parts = Markup(_ROOT.sub("", _WORDS.sub("", svg, count=2)))  # noqa: S704  # a drawing of ours
    return ScreenFigure(name, figure, frame, parts, unescape(words["desc"]))
