"""Conditions of style sheets, held against the screens and the paper that a page is judged on."""

import itertools
import math
import re
from collections.abc import Iterable
from dataclasses import dataclass

from tinycss2 import parse_component_value_list, serialize  # type: ignore[import-untyped]
from tinycss2.ast import Node  # type: ignore[import-untyped]

_LETTER_PX = 16.0
"""Lengths in conditions are measured in the browser's own letter, whatever a page sets."""
_UNITS = {"px": 1.0, "em": _LETTER_PX, "rem": _LETTER_PX, "pt": 4 / 3, "cm": 96 / 2.54, "in": 96.0}
_LENGTH = re.compile(r"([+-]?(?:\d+\.?\d*|\.\d+))(px|em|rem|pt|cm|in)?", re.ASCII)
_RANGE = re.compile(r"(.+?)(<=|>=|<|>|=)(.+?)(?:(<=|<|>=|>)(.+))?", re.ASCII)
_FLIPPED = {"<": ">", ">": "<", "<=": ">=", ">=": "<=", "=": "="}
_NARROWEST, _WIDEST = 320.0, 8000.0
"""From the narrowest screen of WCAG 2.2, 1.4.10 Reflow, to beyond the widest on sale (ours)."""
_TOLERANCE = 0.01


@dataclass(frozen=True, slots=True)
class Screen:
    """What a page is shown on."""

    is_paper: bool
    width_px: float
    is_dark: bool
    """What the reader's system prefers."""


@dataclass(frozen=True, slots=True)
class Bound:
    """A limit of the width: ``side`` is how the width must compare to it."""

    side: str
    width_px: float


@dataclass(frozen=True, slots=True)
class Condition:
    """When rules apply; what isn't known of screens neither holds nor fails."""

    text: str

    def list_widths(self) -> tuple[float, ...]:
        """Return the widths at which this condition may change."""
        found = (_read_length(f"{match[0]}") for match in _LENGTH.finditer(self.text))
        return tuple(width for width in found if width is not None)

    def holds_on(self, screen: Screen) -> bool | None:
        """Tell whether it holds, or None where that can't be known."""
        queries = _split(parse_component_value_list(self.text, skip_comments=True), ",")
        answers = [_ask_query(query, screen) for query in queries]
        return _any(answers) if answers else True


def list_screens(conditions: Iterable[Condition]) -> tuple[Screen, ...]:
    """Return screens and papers of every width on which any of the conditions may differ."""
    steps = {_NARROWEST, _WIDEST}
    for condition in conditions:
        steps |= {width for width in condition.list_widths() if _NARROWEST < width < _WIDEST}
    inner = sorted(steps)
    between = {(low + high) / 2 for low, high in itertools.pairwise(inner)}
    return tuple(
        Screen(is_paper, width, is_dark)
        for is_paper in (False, True)
        for width in sorted(steps | between)
        for is_dark in (False, True)
    )


def _ask_query(tokens: list[Node], screen: Screen) -> bool | None:
    """Answer one query between commas: a medium, features, or both."""
    words = [token for token in tokens if token.type != "whitespace"]
    is_negated = bool(words) and _is_word(words[0], "not") and words[1:2] != []
    if is_negated and words[1].type == "ident":
        return _not(_ask_query(words[1:], screen))
    if words and _is_word(words[0], "only"):
        words = words[1:]
    if not words or words[0].type != "ident" or _is_word(words[0], "not"):
        return _ask_features(words, screen)
    medium = {"all": True, "screen": not screen.is_paper, "print": screen.is_paper}
    answer = medium.get(words[0].lower_value, False)
    if len(words) == 1:
        return answer
    if not _is_word(words[1], "and"):
        return None
    return _all([answer, _ask_features(words[2:], screen)])


def _ask_features(words: list[Node], screen: Screen) -> bool | None:
    """Answer features joined by one kind of word."""
    for joint, join in (("or", _any), ("and", _all)):
        parts = _split(words, joint)
        if len(parts) > 1:
            return join([_ask_features(part, screen) for part in parts])
    if words and _is_word(words[0], "not"):
        return _not(_ask_features(words[1:], screen))
    if len(words) != 1 or words[0].type != "() block":
        return None
    inside = [token for token in words[0].content if token.type != "whitespace"]
    if any(token.type == "() block" for token in inside):
        return _ask_features(inside, screen)
    return _ask_feature("".join(serialize([token]) for token in inside).lower(), screen)


def _ask_feature(text: str, screen: Screen) -> bool | None:
    """Answer one feature, such as ``min-width:60em`` or ``width>=600px``."""
    if text.startswith("prefers-color-scheme:"):
        wanted = text.partition(":")[2]
        return {"dark": screen.is_dark, "light": not screen.is_dark}.get(wanted)
    bounds = _read_bounds(text)
    if bounds is None:
        return None
    return all(_is_within(bound, screen.width_px) for bound in bounds)


def _read_bounds(text: str) -> tuple[Bound, ...] | None:
    name, colon, value = text.partition(":")
    sides = {"min-width": ">=", "max-width": "<=", "width": "="}
    if colon:
        width = _read_length(value)
        return None if width is None or name not in sides else (Bound(sides[name], width),)
    found = _RANGE.fullmatch(text)
    if found is None:
        return None
    first, side, middle, second, last = found.groups()
    if middle == "width" and (low := _read_length(first)) is not None:
        bounds = [Bound(_FLIPPED[side], low)]
    elif first == "width" and second is None and (high := _read_length(middle)) is not None:
        return (Bound(side, high),)
    else:
        return None
    if second is not None:
        end = _read_length(last)
        if end is None:
            return None
        bounds.append(Bound(second, end))
    return tuple(bounds)


def _is_within(bound: Bound, width: float) -> bool:
    if math.isclose(width, bound.width_px, abs_tol=_TOLERANCE):
        return "=" in bound.side
    return (width > bound.width_px) == (">" in bound.side) and bound.side != "="


def _read_length(text: str) -> float | None:
    found = _LENGTH.fullmatch(text.strip())
    if found is None:
        return None
    number, unit = float(found[1]), found[2]
    return number * _UNITS[unit] if unit else (0.0 if number == 0 else None)


def _split(tokens: Iterable[Node], joint: str) -> list[list[Node]]:
    """Part tokens at a comma or a word."""
    parts: list[list[Node]] = [[]]
    for token in tokens:
        if _is_word(token, joint) or (token.type == "literal" and token.value == joint):
            parts.append([])
        else:
            parts[-1].append(token)
    return parts


def _is_word(token: Node, word: str) -> bool:
    return bool(token.type == "ident" and token.lower_value == word)


def _not(answer: bool | None) -> bool | None:
    return None if answer is None else not answer


def _all(answers: list[bool | None]) -> bool | None:
    if False in answers:
        return False
    return None if None in answers else True


def _any(answers: list[bool | None]) -> bool | None:
    if True in answers:
        return True
    return None if None in answers else False
