"""Lengths of style sheets in pixels, as far as they can be told without a screen."""

import re
from collections.abc import Callable
from dataclasses import dataclass

from tinycss2 import parse_component_value_list  # type: ignore[import-untyped]
from tinycss2.ast import Node  # type: ignore[import-untyped]

_ABSOLUTE = {
    "px": 1.0,
    "pt": 96 / 72,
    "pc": 16.0,
    "in": 96.0,
    "cm": 96 / 2.54,
    "mm": 96 / 25.4,
    "q": 96 / 101.6,
}
_SCREEN = frozenset({"vw", "svw", "vi", "svi"})
_SCREEN_PX = 3.2
"""A hundredth of the narrowest screen, 320 pixels by WCAG 2.2, 1.4.10 Reflow."""
_COLOURS = ("rgb", "hsl", "hwb", "color", "lab", "lch", "oklab", "oklch", "light-dark")
_JOINTS = frozenset({"+", "-", "*", "/"})
_WITH_SCREEN = re.compile(r"\d(?:[sdl]?v[whib]|[sdl]?vm(?:in|ax)|cq\w+)\b")


@dataclass(frozen=True, slots=True)
class Letter:
    """What lengths are measured by."""

    em_px: float
    root_px: float
    percent_px: float | None = None
    """What all of a hundred percent is; None where only the screen could tell."""


def read_length(text: str, letter: Letter) -> float | None:
    """Return a length in pixels at the narrowest screen, or None where it can't be told."""
    if _WITH_SCREEN.search(text) and ("-" in text or "*" in text or "/" in text):
        return None  # it may shrink where screens grow
    tokens = _drop_spaces(parse_component_value_list(text, skip_comments=True))
    if len(tokens) != 1:
        return None
    found = _read(tokens[0], letter)
    if tokens[0].type == "number" and found != 0:
        return None
    return found


def list_lengths(text: str, letter: Letter) -> list[float | None]:
    """Return the lengths among the words of a value; None stands for one that can't be told."""
    tokens = parse_component_value_list(text, skip_comments=True)
    return [_read(token, letter) for token in tokens if _is_length(token)]


def _is_length(token: Node) -> bool:
    if token.type == "function":
        return not token.lower_name.startswith(_COLOURS)
    return token.type in {"number", "dimension", "percentage", "() block"}


def _read(token: Node, letter: Letter) -> float | None:
    if token.type == "number":
        return float(token.value)
    if token.type == "percentage":
        return None if letter.percent_px is None else token.value / 100 * letter.percent_px
    if token.type == "dimension":
        return _read_dimension(token, letter)
    if token.type == "() block":
        return _add_up(token.content, letter)
    if token.type == "function" and token.lower_name in _FUNCTIONS:
        return _FUNCTIONS[token.lower_name](token.arguments, letter)
    return None


def _read_dimension(token: Node, letter: Letter) -> float | None:
    unit = token.lower_unit
    sizes = {**_ABSOLUTE, "em": letter.em_px, "rem": letter.root_px, "ch": letter.em_px / 2}
    sizes |= {"ex": letter.em_px / 2} | dict.fromkeys(_SCREEN, _SCREEN_PX)
    return token.value * sizes[unit] if unit in sizes else None


def _add_up(tokens: list[Node], letter: Letter) -> float | None:
    """Work out a sum: products first, from left to right."""
    parts = _drop_spaces(tokens)
    values, joints = parts[::2], parts[1::2]
    if len(values) != len(joints) + 1 or any(
        getattr(joint, "value", "") not in _JOINTS for joint in joints
    ):
        return None
    read = [_read(value, letter) for value in values]
    total, product = 0.0, read[0]
    for joint, value in zip(joints, read[1:], strict=True):
        if value is None or product is None or (joint.value == "/" and value == 0):
            return None
        if joint.value in "*/":
            product = product * value if joint.value == "*" else product / value
        else:
            total, product = total + product, value if joint.value == "+" else -value
    return None if product is None else total + product


def _read_each(tokens: list[Node], letter: Letter) -> list[float] | None:
    parts: list[list[Node]] = [[]]
    for token in tokens:
        if token.type == "literal" and token.value == ",":
            parts.append([])
        else:
            parts[-1].append(token)
    found = [_add_up(part, letter) for part in parts]
    known = [value for value in found if value is not None]
    return known if len(known) == len(found) else None


def _read_least(tokens: list[Node], letter: Letter) -> float | None:
    values = _read_each(tokens, letter)
    return min(values) if values else None


def _read_most(tokens: list[Node], letter: Letter) -> float | None:
    values = _read_each(tokens, letter)
    return max(values) if values else None


def _read_clamp(tokens: list[Node], letter: Letter) -> float | None:
    values = _read_each(tokens, letter)
    return max(values[0], min(values[1], values[2])) if values and len(values) == 3 else None


_FUNCTIONS: dict[str, Callable[[list[Node], Letter], float | None]] = {
    "calc": _add_up,
    "min": _read_least,
    "max": _read_most,
    "clamp": _read_clamp,
}


def _drop_spaces(tokens: list[Node]) -> list[Node]:
    return [token for token in tokens if token.type not in {"whitespace", "comment"}]
