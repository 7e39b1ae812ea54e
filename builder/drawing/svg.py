"""SVG text, written so that nothing an author types can leave its place."""

import math
import re
from dataclasses import dataclass
from html import escape

FONT_FAMILY = "'Source Sans 3'"
"""The family that is shipped; without it on the root, drawings take what the machine has.
Quoted, since a name that ends in a number is no CSS identifier.
"""
MM_PER_PIXEL = 25.4 / 96
"""CSS defines an inch as 96 pixels."""

_CONTAINERS = frozenset({"svg", "g", "a"})
"""What holds parts, a line each: words in two of them are two words."""

_CONTROLS = re.compile("[\x00-\x08\x0b-\x1f\ufffe\uffff]")


@dataclass(frozen=True, slots=True)
class Svg:
    """A finished piece of a drawing."""

    text: str


@dataclass(frozen=True, slots=True)
class Frame:
    """The outside of a drawing: its size and what it says to those who can't see it."""

    name: str
    """Class name of the root."""
    width: float
    height: float
    title: str
    description: str
    role: str = "img"
    """``img`` hides the parts from screen readers, so a drawing with links is a ``group``."""
    pixels_per_unit: float = 1 / MM_PER_PIXEL


def element(tag: str, *children: Svg | str, **attributes: str | float) -> Svg:
    """Write one element; text and attributes are escaped.

    Attribute names have ``_`` for ``-``, and one ``_`` at the end where Python needs the word.
    """
    head = "".join(
        f' {name.removesuffix("_").replace("_", "-")}="{_write_value(value)}"'
        for name, value in attributes.items()
    )
    if not children:
        return Svg(f"<{tag}{head}/>")
    gap = "\n" if tag in _CONTAINERS else ""
    body = gap.join(
        child.text if isinstance(child, Svg) else _escape_text(child) for child in children
    )
    return Svg(f"<{tag}{head}>{gap}{body}{gap}</{tag}>")


def finish(frame: Frame, *children: Svg) -> str:
    """Write the root around the parts of a drawing."""
    return element(
        "svg",
        element("title", frame.title),
        element("desc", frame.description),
        *children,
        xmlns="http://www.w3.org/2000/svg",
        class_=frame.name,
        viewBox=f"0 0 {number(frame.width)} {number(frame.height)}",
        width=frame.width * frame.pixels_per_unit,
        height=frame.height * frame.pixels_per_unit,
        role=frame.role,
        font_family=FONT_FAMILY,
        fill="currentColor",
    ).text


def number(value: float) -> str:
    """Write a number with at most two decimals, the same on every machine."""
    hundredths = math.floor(value * 100 + 0.5)
    return f"{hundredths / 100:.2f}".rstrip("0").rstrip(".")


def path(*steps: str | float) -> str:
    """Write the ``d`` of a path from its letters and numbers."""
    return " ".join(step if isinstance(step, str) else number(step) for step in steps)


def _write_value(value: str | float) -> str:
    return _escape_text(value).replace('"', "&quot;") if isinstance(value, str) else number(value)


def _escape_text(text: str) -> str:
    return escape(_drop_controls(text), quote=False)


def _drop_controls(text: str) -> str:
    """Leave out what XML 1.0 doesn't allow."""
    return _CONTROLS.sub("", text)
