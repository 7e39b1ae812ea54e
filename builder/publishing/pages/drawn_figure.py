"""A lesson's figure as its page has it, still and moving: a value, and its key."""

import json
from dataclasses import dataclass

from markupsafe import Markup

from builder.course.figure import Figure
from builder.drawing.figure.motion import draw_motion
from builder.drawing.figure.pair import Room, draw_pair
from builder.drawing.labels import labels_in
from builder.publishing.pages.svg_markup import place_svg
from builder.work.digest import digest, spell
from builder.work.tool import digest_tool

_ROOM = Room(width_mm=110, tallest_mm=56, letter_mm=4)


@dataclass(frozen=True, slots=True)
class DrawnFigure:
    """Both breaths side by side, and the same body with what moves it."""

    pair: Markup
    moving: Markup
    frames: Markup
    """JSON that a script of the page reads."""

    def to_bytes(self) -> bytes:
        """Pack the drawings for the cache."""
        return json.dumps([self.pair, self.moving, self.frames]).encode()

    @classmethod
    def from_bytes(cls, piece: bytes) -> "DrawnFigure":
        """Unpack what ``to_bytes`` packed."""
        return cls(*map(Markup, json.loads(piece)))


@dataclass(frozen=True, slots=True)
class FigureOrder:
    """A figure to be drawn, with its words in a language."""

    figure: Figure
    language: str
    """BCP 47."""

    @property
    def key(self) -> str:
        """Return the key of the drawings; they depend on nothing else."""
        return digest("figure", digest_tool(), self.language, spell(self.figure))


def draw_figure(order: FigureOrder) -> DrawnFigure:
    """Draw a figure for a page."""
    labels = labels_in(order.language)
    motion = draw_motion(order.figure, "moving", labels=labels)
    pair = place_svg(draw_pair(order.figure, "pair", _ROOM, labels).svg)
    # A browser ends a script at the first "</", whatever the script says.
    frames = Markup(motion.frames.replace("</", "<\\/"))  # noqa: S704  # numbers of ours
    return DrawnFigure(pair, place_svg(motion.svg), frames)
