"""Ink: the paths of a drawing as PDF operators (ISO 32000-1, 8.4 and 8.5).

The engine takes each path apart with care for all that SVG allows; that was two thirds of its
writing. Paths of ours are made of few things. What has anything else is left to the engine.
"""

import re
from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import Protocol
from xml.etree import ElementTree as ET

from builder.publishing.cards.outlines import draw_outline, write_number

_SVG = "{http://www.w3.org/2000/svg}"
_COLOUR = re.compile(r"#(?:[0-9a-fA-F]{3}){1,2}")
_NUMBER = re.compile(r"\d+\.?\d*")
_SHARED = frozenset({"class", "fill", "stroke", "stroke-width", "stroke-linejoin"})
_KNOWN = {
    f"{_SVG}g": _SHARED,
    f"{_SVG}path": _SHARED | {"id", "d", "stroke-linecap"},
    f"{_SVG}use": _SHARED | {"href"},
}
_FRAME = frozenset({"viewBox", "width", "height", "class", "role", "font-family", "fill", "stroke"})
"""What a drawing's own element may have."""
_JOINS = {"miter": 0, "round": 1}
_CAPS = {"butt": 0, "round": 1}
_START = {
    "fill": "#000",
    "stroke": "none",
    "stroke-width": "1",
    "stroke-linejoin": "miter",
    "stroke-linecap": "butt",
}
"""What holds where nothing is said (SVG 1.1, 11)."""
_MITER_LIMIT = 4
"""The same; PDF has 10 where nothing is said."""
_PAINT = {
    (True, True): b"B",
    (True, False): b"f",
    (False, True): b"S",
    (False, False): b"n",
}
"""What ends a path: filled, with a line around it."""
_FRAMES = 3
"""A picture of ink is so many times as wide and high as its drawing: no line that leaves the
drawing's frame is cut off."""


class Stream(Protocol):
    """What the engine writes a page's operators to."""

    stream: list[bytes]


@dataclass(frozen=True, slots=True)
class Ink:
    """Paths of one drawing that follow each other; a picture, for the engine."""

    width: float
    """That of the drawing, and its height, in the drawing's own units."""
    height: float
    operators: bytes

    def get_intrinsic_size(self, resolution: float, font_size: float) -> tuple[float, float, float]:
        """Return the picture's width, height and their ratio, as the engine asks for them."""
        del resolution, font_size
        return _FRAMES * self.width, _FRAMES * self.height, self.width / self.height

    def draw(self, stream: Stream, width: float, height: float, style: object) -> None:
        """Write the paths to a page, as the engine asks for it."""
        del width, height, style
        right, down = write_number(self.width), write_number(self.height)
        stream.stream.append(f"q 1 0 0 1 {right} {down} cm".encode())
        stream.stream += [self.operators, b"Q"]


NO_INK: Mapping[str, Ink] = MappingProxyType({})


def take_ink(svg: bytes, address: str) -> tuple[bytes, Mapping[str, Ink]]:
    """Put a picture in place of each run of paths in a drawing; return the pictures by address.

    Words stay as they are, and what lies over what stays the same.
    """
    root = ET.fromstring(svg)  # noqa: S314  # a drawing of ours
    frame = [float(part) for part in root.get("viewBox", "").split()]
    if frame[:2] != [0, 0] or not root.attrib.keys() <= _FRAME:
        return svg, NO_INK
    inks: dict[str, Ink] = {}
    pen = _Pen(root)
    kept: list[ET.Element] = []
    for child in [*root, ET.Element("end")]:
        if pen.draw(child):
            continue
        if pen.written:
            name = f"{address}.{len(inks)}"
            inks[name] = Ink(frame[2], frame[3], b"\n".join(pen.take()))
            kept.append(_show(name, inks[name]))
        kept.append(child)
    root[:] = kept[:-1]
    return ET.tostring(root), inks


def _show(address: str, ink: Ink) -> ET.Element:
    width, height, _ = ink.get_intrinsic_size(1, 1)
    places = {"x": -ink.width, "y": -ink.height, "width": width, "height": height}
    return ET.Element(
        f"{_SVG}image",
        {"href": address, **{name: write_number(value) for name, value in places.items()}},
    )


class _Pen:
    """Writes the paths of a drawing one after the other, and what changes between them."""

    def __init__(self, root: ET.Element) -> None:
        self._start = _inherit(_START, root)
        self._paths = {path.get("id"): path for path in root.iter(f"{_SVG}path")}
        self.written: list[bytes] = []
        self._state: dict[str, bytes] = {}
        """What was set last of each kind."""

    def take(self) -> list[bytes]:
        """Return what was written, and begin anew."""
        written, self.written, self._state = self.written, [], {}
        return written

    def draw(self, part: ET.Element) -> bool:
        """Write a part with all that is in it; write nothing and tell so where that can't be."""
        length, state = len(self.written), dict(self._state)
        if self._draw(part, self._start):
            return True
        del self.written[length:]
        self._state = state
        return False

    def _draw(self, part: ET.Element, outer: Mapping[str, str]) -> bool:
        known = _KNOWN.get(part.tag)
        if known is None or not part.attrib.keys() <= known:
            return False
        style = _inherit(outer, part)
        if part.tag == f"{_SVG}g":
            return all(self._draw(child, style) for child in part)
        if part.tag == f"{_SVG}use":
            path = self._paths.get(part.get("href", "").removeprefix("#"))
            return path is not None and self._draw(path, style)
        return self._draw_path(part.get("d", ""), style)

    def _draw_path(self, steps: str, style: Mapping[str, str]) -> bool:
        outline = draw_outline(steps)
        fill, stroke = _mix(style["fill"]), _mix(style["stroke"])
        if outline is None or fill is None or stroke is None:
            return False
        if fill:
            self._set("fill", f"{fill} rg")
        if stroke and not self._set_line(stroke, style):
            return False
        self.written += [outline, _PAINT[bool(fill), bool(stroke)]]
        return True

    def _set_line(self, stroke: str, style: Mapping[str, str]) -> bool:
        width = style["stroke-width"]
        join, cap = _JOINS.get(style["stroke-linejoin"]), _CAPS.get(style["stroke-linecap"])
        if not _NUMBER.fullmatch(width) or join is None or cap is None:
            return False
        self._set("stroke", f"{stroke} RG")
        self._set("line", f"{width} w {join} j {cap} J {_MITER_LIMIT} M")
        return True

    def _set(self, name: str, operators: str) -> None:
        if self._state.get(name) != operators.encode():
            self._state[name] = operators.encode()
            self.written.append(self._state[name])


def _inherit(outer: Mapping[str, str], part: ET.Element) -> dict[str, str]:
    return {name: part.get(name, value) for name, value in outer.items()}


def _mix(colour: str) -> str | None:
    """Return red, green and blue; nothing for no colour, None for one that isn't known here.

    A picture has no colour of the page around it, so the current one is black.
    """
    if colour == "none":
        return ""
    digits = {"currentColor": "#000000"}.get(colour, colour)
    if not _COLOUR.fullmatch(digits):
        return None
    wide = digits[1:] if len(digits) == 7 else "".join(2 * digit for digit in digits[1:])
    parts = (int(wide[index : index + 2], 16) / 255 for index in (0, 2, 4))
    return " ".join(f"{part:.6f}".rstrip("0").rstrip(".") for part in parts)
