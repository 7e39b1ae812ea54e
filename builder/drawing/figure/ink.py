"""Ink: the parts of a picture as SVG, each limb within one outline."""

from collections.abc import Sequence

from builder.drawing.figure.arrow import Arrow, outline_arrow
from builder.drawing.figure.outline import Steps
from builder.drawing.figure.paint import Part, Tone
from builder.drawing.svg import MM_PER_PIXEL, Svg, element

INK = "#1d2b2a"
FILLS = {
    Tone.NEAR: "#aebfb8",
    Tone.FAR: "#e3e9e6",
    Tone.TRUNK: "#cad6d1",
    Tone.HAIR: "#56655f",
    Tone.PROP: "#efe9da",
    Tone.PROP_TOP: "#f8f4ea",
}
"""Light enough for ink on top, and apart from each other in greys."""
UNITS_PER_MM = 10
"""Whole tenths of a millimetre keep a drawing small, and are finer than print."""
PIXELS_PER_UNIT = 1 / MM_PER_PIXEL / UNITS_PER_MM
LINE = 0.011
"""How broad an outline is, in heights of the body."""


def draw_parts(parts: Sequence[Part], name: str, line: float) -> Svg:
    """Draw each part's outline and lay its fill over it, so that a limb has one outline.

    ``name`` begins the ids of the parts; ``line`` is in the units of the drawing.
    """
    shapes = []
    for index, part in enumerate(parts):
        own = f"{name}-{index}"
        shapes.append(element("path", id=own, d=write_steps(part.steps)))
        shapes.append(_lay_over(f"#{own}", part.tone))
    return element(
        "g", *shapes, fill="none", stroke=INK, stroke_width=2 * line, stroke_linejoin="round"
    )


def draw_arrows(moves: Sequence[Arrow], breaths: Sequence[Arrow], line: float) -> Svg:
    """Draw what moves as dark thin arrows, and where the breath goes as light broad ones."""
    shapes = [
        element(
            "path",
            d=write_steps(outline_arrow(arrow, 1.1 * line, 5.5 * line)),
            class_="move",
            fill=INK,
        )
        for arrow in moves
    ]
    shapes += [
        element(
            "path",
            d=write_steps(outline_arrow(arrow, 3 * line, 7 * line)),
            class_="breath",
            fill="#fff",
        )
        for arrow in breaths
    ]
    return element("g", *shapes, stroke=INK, stroke_width=0.7 * line, stroke_linejoin="round")


def write_steps(steps: Steps) -> str:
    """Write a path in whole units, without a space too many."""
    written: list[str] = []
    follows_number = False
    for step in steps:
        if isinstance(step, str):
            written.append(step)
            follows_number = False
        else:
            written.append(f" {round(step)}" if follows_number else f"{round(step)}")
            follows_number = True
    return "".join(written)


def _lay_over(href: str, tone: Tone) -> Svg:
    """Fill a part over its outline."""
    return element("use", href=href, class_=tone, fill=FILLS[tone], stroke="none")
