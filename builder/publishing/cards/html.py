"""Cards as HTML: the templates with a card's face in them."""

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache

from jinja2 import Environment, FileSystemLoader, StrictUndefined
from markupsafe import Markup

from builder.drawing.figure.pair import Room, draw_pair
from builder.drawing.tempo_strip import draw_tempo_strip
from builder.publishing.cards.face import CardFace
from builder.publishing.cards.words import list_wanted_words
from builder.resources import find_templates
from builder.sums.paper import MM_PER_INCH, POINTS_PER_INCH, Paper

FRONT = "card.html.j2"
BACK = "card_back.html.j2"
_SMALL_PRINT = 0.85
_STRIP_SHARE = 0.43
"""How much of the text's width the tempo strip takes, as the style sheet has it."""

_RISE, _DENSE_RISE = 2.5, 1.5
"""How high a breath of the tempo strip rises, in letters; lower beside a figure."""
_FIGURE_SHARE = 0.55
_DENSE_LINES = 5.2
_ROOMY_LINES = 9.0
"""How high a figure may be, in the heights of a card's letters."""
_LONGEST_WORD = 30
"""As many letters as a line of the smallest card holds, with room to spare."""
_NO_BREAK_MM = -2000
"""A bottom margin so far below the paper that no card breaks: it is measured instead."""


@dataclass(frozen=True, slots=True)
class Setting:
    """How large a card's type is, and whether its parts run together."""

    points: float
    is_dense: bool


def write_front(face: CardFace, setting: Setting) -> str:
    """Write the side that a client reads."""
    width = (face.paper.width_mm - 2 * face.paper.margin_mm) * _STRIP_SHARE
    letter = setting.points / POINTS_PER_INCH * MM_PER_INCH
    rise = _DENSE_RISE if setting.is_dense and face.figure else _RISE
    drawings = {"strip": draw_tempo_strip(face.tempo, width, letter, rise), "figure": ""}
    if face.figure:
        room = _figure_room(face.paper, setting, letter)
        drawings["figure"] = draw_pair(face.figure, f"card-figure-{face.lesson.id}", room)
    drawn = {name: Markup(svg) for name, svg in drawings.items()}  # noqa: S704  # by us
    return _write(FRONT, face, setting, drawn)


def _figure_room(paper: Paper, setting: Setting, letter_mm: float) -> Room:
    """Return the room beside the tempo strip; a dense card's figure is as high as the strip."""
    width = (paper.width_mm - 2 * paper.margin_mm) * _FIGURE_SHARE
    lines = _DENSE_LINES if setting.is_dense else _ROOMY_LINES
    return Room(width, min(0.5 * width, lines * letter_mm), letter_mm, has_one_text=True)


def write_back(face: CardFace, setting: Setting) -> str:
    """Write the side that only a coach reads."""
    return _write(BACK, face, setting, {})


@cache
def read_style(paper: Paper) -> str:
    """Return the style sheet of cards on a paper."""
    margin = paper.margin_mm
    size = f"size: {paper.width_mm}mm {paper.height_mm}mm"
    page = f"@page {{ {size}; margin: {margin}mm {margin}mm {_NO_BREAK_MM}mm {margin}mm }}"
    body = f"body {{ height: {paper.height_mm - 2 * margin:g}mm }}"
    sheet = (find_templates() / "cards" / "card.css").read_text(encoding="utf-8")
    return "\n".join((sheet, page, body))


@cache
def open_templates() -> Environment:
    """Return the card templates; everything that goes in is escaped."""
    loader = FileSystemLoader(find_templates() / "cards")
    return Environment(
        loader=loader,
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
    )


def _write(name: str, face: CardFace, setting: Setting, drawings: Mapping[str, Markup]) -> str:
    values = {
        "card": face,
        "lesson": face.lesson,
        "setting": setting,
        "small_points": max(face.paper.floor_points, setting.points * _SMALL_PRINT),
        "has_long_words": _has_long_words(face),
    }
    return open_templates().get_template(name).render(**values, **drawings)


def _has_long_words(face: CardFace) -> bool:
    """Tell whether a card has words that may have to be broken.

    Allowed to break words, the engine breaks short ones too where a line of notices turns.
    """
    words = " ".join(list_wanted_words(face).values()).split()
    return any(len(word) > _LONGEST_WORD for word in words)
