"""Tables of numbers on shade: the measures and lettering that charts for coaches share; in mm."""

from dataclasses import dataclass

from builder.drawing.svg import Svg, element

LETTER = 2.8
ROW = 5.0
PAD = 1.5
BASE = 3.5
"""From the top of a row to the base line of its words."""
GAP = 0.3
"""Between a cell's edge and its shade."""
FRAME = 0.35
"""The line around a cell that stands out."""
PIXELS_PER_MM = 14 / LETTER
DARKEST = 0.36
"""A number must still stand out from the shade behind it."""


@dataclass(frozen=True, slots=True)
class Style:
    """How words are set, and what part of the table they are."""

    weight: int = 400
    anchor: str = "start"
    role: str = ""
    size: float = LETTER


PLAIN = Style()


def write_words(words: str, x: float, y: float, style: Style = PLAIN) -> Svg:
    """Write one line of words from its base line."""
    attributes = {"role": style.role} if style.role else {}
    return element(
        "text",
        words,
        x=x,
        y=y,
        font_size=style.size,
        font_weight=style.weight,
        text_anchor=style.anchor,
        **attributes,
    )


def shade_cell(
    left: float, top: float, size: tuple[float, float], opacity: float, *, is_framed: bool
) -> Svg:
    """Draw the shade of a cell of a width and height, with a line around it where it stands out."""
    width, height = size
    return element(
        "rect",
        x=left + GAP,
        y=top + GAP,
        width=width - 2 * GAP,
        height=height - 2 * GAP,
        fill_opacity=min(opacity, DARKEST),
        stroke="currentColor" if is_framed else "none",
        stroke_width=FRAME,
    )
