"""Cards as HTML: the templates with a card's face in them."""

from collections.abc import Mapping
from functools import cache

from markupsafe import Markup

from builder.drawing.figure.pair import Room, StagedPair, stage_pair
from builder.drawing.labels import labels_in
from builder.drawing.tempo_strip import draw_tempo_strip
from builder.language import language_of
from builder.publishing.cards.face import CardFace
from builder.publishing.cards.setting import Setting
from builder.publishing.cards.words import list_wanted_words
from builder.publishing.environment import open_templates
from builder.resources import find_templates
from builder.sums.paper import MM_PER_INCH, POINTS_PER_INCH, Paper

TEMPLATES = "cards"
FRONT = "card.html.j2"
BACK = "card_back.html.j2"
_SMALL_PRINT = 0.85
_STRIP_SHARE = 0.43
"""How much of the text's width the tempo strip takes, as the style sheet has it."""

_RISE, _DENSE_RISE = 2.5, 1.5
"""How high a breath of the tempo strip rises, in letters; lower beside a figure."""
_FIGURE_SHARE = 0.54
_DENSE_LINES = 7.6
_SMALL_FIGURE_SHARE = 0.45
_SMALL_LINES = 5.6
_ROOMY_LINES = 11.0
"""How high a figure may be, in the heights of a card's letters."""
_FIGURE_GAP = 1.05
"""Between the figure and what stands beside it, in letters; a hair more than the style sheet has,
so that no letter of the strip shrinks."""
_LONGEST_WORD = 30
"""As many letters as a line of the smallest card holds, with room to spare."""
_NO_BREAK_MM = -2000
"""A bottom margin so far below the paper that no card breaks: it is measured instead."""


def stage_figure(face: CardFace) -> StagedPair | None:
    """Let a card's figure, if it has one, come to rest before it is drawn in some sizes."""
    return stage_pair(face.figure) if face.figure else None


def write_front(face: CardFace, setting: Setting, pair: StagedPair | None = None) -> str:
    """Write the side that a client reads; a ``pair`` is the face's own figure, staged before."""
    text_width = face.paper.width_mm - 2 * face.paper.margin_mm
    width = text_width * _STRIP_SHARE
    letter = _find_letter_mm(setting)
    rise = _DENSE_RISE if setting.is_dense and face.figure else _RISE
    labels = labels_in(face.language)
    drawn: dict[str, Markup | float] = {"figure": Markup(), "figure_mm": 0.0}
    pair = pair or stage_figure(face)
    if pair:
        drawing = pair.draw("pair", _figure_room(face.paper, setting), labels)
        drawn = {"figure": Markup(drawing.svg), "figure_mm": drawing.width_mm}  # noqa: S704  # by us
        width = text_width - drawing.width_mm - _FIGURE_GAP * letter
    strip = draw_tempo_strip(face.tempo, width, letter, rise, labels)
    drawn["strip"] = Markup(strip)  # noqa: S704  # by us
    return _write(FRONT, face, setting, drawn)


def measure_figure(
    face: CardFace, pair: StagedPair | None, setting: Setting
) -> tuple[float, float]:
    """Return how wide and high a card's figure is, in millimetres; zeros without one."""
    if pair is None:
        return 0, 0
    return pair.measure(_figure_room(face.paper, setting), labels_in(face.language))


def _find_letter_mm(setting: Setting) -> float:
    return setting.points / POINTS_PER_INCH * MM_PER_INCH


def _figure_room(paper: Paper, setting: Setting) -> Room:
    """Return the room beside dose and tempo strip, which is about as high as they are."""
    share, lines = _FIGURE_SHARE, _DENSE_LINES if setting.is_dense else _ROOMY_LINES
    if setting.has_small_figure:
        share, lines = _SMALL_FIGURE_SHARE, _SMALL_LINES
    width = (paper.width_mm - 2 * paper.margin_mm) * share
    letter_mm = _find_letter_mm(setting)
    return Room(
        width, min(0.5 * width, lines * letter_mm), letter_mm, is_snug=True, has_one_text=True
    )


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


def _write(
    name: str, face: CardFace, setting: Setting, drawings: Mapping[str, Markup | float]
) -> str:
    values = {
        "card": face,
        "lesson": face.lesson,
        "setting": setting,
        "small_points": max(face.paper.floor_points, setting.points * _SMALL_PRINT),
        "has_long_words": _has_long_words(face),
    }
    sayings = language_of(face.language).sayings
    return open_templates(TEMPLATES).get_template(name).render(**values, **drawings, **sayings)


def _has_long_words(face: CardFace) -> bool:
    """Tell whether a card has words that may have to be broken.

    Allowed to break words, the engine breaks short ones too where a line of notices turns.
    """
    words = " ".join(list_wanted_words(face).values()).split()
    return any(len(word) > _LONGEST_WORD for word in words)
