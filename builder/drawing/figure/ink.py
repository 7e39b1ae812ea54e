"""Ink: the parts of a picture as SVG, each limb within one outline."""

from collections.abc import Iterable, Sequence

from builder.drawing.figure.arrow import Arrow, outline_arrow
from builder.drawing.figure.camera import Placing
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
_AS_IT_IS = Placing()
_ARC, _FLAGS, _ENDS_ONLY = 1, 3, 6
"""Places in an arc: of its two radii, of its turn and two flags, and of its end; others have ends
alone."""
LINE = 0.011
"""How broad an outline is, in heights of the body."""

WrittenPart = tuple[Tone, str]
"""How a part is filled, and its outline as an SVG path."""


def write_parts(parts: Iterable[Part], placing: Placing) -> list[WrittenPart]:
    """Write the parts of a picture as they stand on a sheet."""
    return [(part.tone, write_steps(part.steps, placing)) for part in parts]


def draw_parts(parts: Sequence[WrittenPart], name: str, line: float) -> Svg:
    """Draw each part's outline and lay its fill over it, so that a limb has one outline.

    ``name`` begins the ids of the parts; ``line`` is in the units of the drawing.
    """
    shapes = []
    for index, (tone, written) in enumerate(parts):
        own = f"{name}-{index}"
        shapes.append(element("path", id=own, d=written))
        shapes.append(_lay_over(f"#{own}", tone))
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


def write_steps(steps: Steps, placing: Placing = _AS_IT_IS) -> str:
    """Write a path in whole units of its sheet, without a space too many."""
    scale, starts = placing.scale, placing.origin
    written: list[str] = []
    place = _ENDS_ONLY
    gap = ""
    for step in steps:
        if isinstance(step, str):
            written.append(step)
            place, gap = _ARC if step == "A" else _ENDS_ONLY, ""
            continue
        if place >= _ENDS_ONLY:
            number = starts[place % 2] + scale * step
        else:
            number = scale * step if place < _FLAGS else step
        written.append(f"{gap}{round(number)}")
        place, gap = place + 1, " "
    return "".join(written)


def _lay_over(href: str, tone: Tone) -> Svg:
    """Fill a part over its outline."""
    return element("use", href=href, class_=tone, fill=FILLS[tone], stroke="none")
