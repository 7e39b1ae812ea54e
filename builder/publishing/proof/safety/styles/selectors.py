"""Selectors of style sheets: ours as they are, those of others widened to all they may match."""

import re
from functools import cached_property
from typing import Any

from cssselect2 import SelectorError, compile_selector_list  # type: ignore[import-untyped]

_STATES = (
    "hover|active|focus-visible|focus-within|focus|target-within|target|visited|link|any-link|"
    "local-link|checked|indeterminate|default|open|popover-open|modal|fullscreen|disabled|enabled|"
    "read-only|read-write|placeholder-shown|autofill|valid|invalid|required|optional|in-range|"
    "out-of-range|user-valid|user-invalid|defined|playing|paused|muted|target-current"
)
_STATE = re.compile(rf"(?<!:):(?:{_STATES})(?![\w(-])", re.IGNORECASE)
_STATE_DENIED = re.compile(rf":not\([^()]*:(?:{_STATES})(?![\w(-])[^()]*\)", re.IGNORECASE)
_FAMILY = re.compile(
    r"[+~]|:(?:nth|first|last|only|empty|has|checked|disabled|enabled)", re.IGNORECASE
)
"""What makes a selector look beyond an element and what it stands in."""
_UNREADABLE = (SelectorError, NotImplementedError, RecursionError, SyntaxError, MemoryError)
_MOST = (9, 9, 9)
_BRACKETS = re.compile(r"[(),\[\]]")
_LAST = re.compile(
    r"(?:^|[\s>+~])((?:[a-zA-Z][\w-]*|\*)?)((?:[.#][a-zA-Z_-][\w-]*)*)(?::[\w-]+)*\s*$"
)
_ASKED = re.compile(r"\[[^\[\]]*\]")
_BRACKETED = re.compile(r"\([^()]*\)")
_PASSING = re.compile(
    r"::|:(?:before|after|hover|active|focus|focus-within|focus-visible|target|visited)(?![\w-])"
)
_MARKS = re.compile(r"[.#][\w-]+")
_NAMED = re.compile(r"\[\s*(?:\*?\|)?\s*([\w-]+)")
_LAX = re.compile(
    r"(\[\s*(?:accept|align|charset|checked|dir|direction|disabled|hreflang|http-equiv|lang|media|"
    r"method|rel|rev|rules|scope|selected|shape|target|type|valign)\s*[~|^$*]?=\s*"
    r"(?:\"[^\"]*\"|'[^']*'|[\w-]+))\s*\]",
    re.IGNORECASE,
)
"""Attributes whose values HTML compares in any case (HTML, 4.16.2 Case-sensitivity)."""
_MOST_STEPS, _MOST_TEXT = 6, 600
_QUIET = re.compile(
    r"::(?:selection|placeholder|backdrop|file-selector-button|-webkit-scrollbar[\w-]*|"
    r"-moz-(?:selection|placeholder|focus-inner|progress-bar|range-[\w-]+)|-ms-[\w-]+)(?::[\w-]+)*\s*$",
    re.IGNORECASE,
)
"""Parts of an element, such as its scroll bar, that carry none of its words and cover none."""


class Selector:
    """One selector of a rule, made ready when it is first asked."""

    def __init__(self, text: str, key: str | None = None) -> None:
        self.text = text
        self.key = _find_key(_bare(text)) if key is None else key
        """``#id``, ``.class`` or the element that it needs; what stands after ``>`` is needed of
        the element around. Empty if any will do."""
        self.is_by_family = _FAMILY.search(text) is not None
        """Whether siblings or children count, not only the element and what it stands in."""
        self.named = frozenset(name.lower() for name in _NAMED.findall(text))
        """The attributes that it asks for."""

    @cached_property
    def _compiled(self) -> Any:
        """The selector as the matcher has it; None where it doesn't know it, or it never holds."""
        try:
            found = compile_selector_list(self.text)
        except _UNREADABLE:
            return None
        return found[0] if len(found) == 1 and not found[0].never_matches else None

    def matches(self, element: object) -> bool:
        """Tell whether an element, of whatever tree, is or holds what is selected."""
        return self._compiled is not None and bool(self._compiled.test(element))

    @property
    def specificity(self) -> tuple[int, int, int]:
        """Its weight."""
        return _MOST if self._compiled is None else self._compiled.specificity

    @property
    def part(self) -> str | None:
        """The pseudo-element that it picks out."""
        return None if self._compiled is None else self._compiled.pseudo_element

    def take_key(self) -> None:
        """Take what the matcher says that the selector needs."""
        found = self._compiled
        if found is None:
            return
        if found.id is not None:
            self.key = f"#{found.id}"
        elif found.class_name is not None:
            self.key = f".{found.class_name}"
        else:
            self.key = found.lower_local_name or ""

    @property
    def is_known(self) -> bool:
        """Whether the matcher knows it."""
        try:
            compile_selector_list(self.text)
        except _UNREADABLE:
            return False
        return True


class Everything(Selector):
    """What a selector that can't be read may match."""

    def __init__(self) -> None:
        super().__init__("*", "")

    def matches(self, element: object) -> bool:
        """Tell that anything may match."""
        return element is not None


def read_own_selectors(text: str) -> tuple[Selector, ...]:
    """Read selectors of ours and the theme's: those of whole elements as they stand by themselves.

    Parts beside elements, and what shows while a reader points at it, are trusted.
    """
    parts = (part for part in _part(text) if not _PASSING.search(_bare(part)))
    return tuple(Selector(part) for part in parts)


def read_foreign_selectors(text: str) -> tuple[tuple[Selector, ...], bool]:
    """Read selectors of a sheet that isn't ours, and tell whether they match only what they say.

    What depends on the reader's doing is left out of them, so that they match too much rather
    than too little.
    """
    steady = _STATE.sub("", _STATE_DENIED.sub("", text))
    eased = _LAX.sub(r"\1 i]", steady)
    found = tuple(Selector(part, "") for part in _part(eased) if not _QUIET.search(part))
    if not all(each.is_known and _is_short(each.text) for each in found):
        return (Everything(),), False
    for each in found:
        each.take_key()
    return found, steady == text


def _is_short(text: str) -> bool:
    """Tell whether a selector can be matched in time, however many elements there are."""
    bare = _BRACKETED.sub("", _ASKED.sub("", text)).strip()
    steps = len(re.split(r"\s*[\s>+~]\s*", bare)) + text.count("(")
    return len(text) <= _MOST_TEXT and steps <= _MOST_STEPS and text.count("~") <= 1


def _part(text: str) -> list[str]:
    """Part selectors at the commas that stand in no bracket."""
    parts, depth, start = [], 0, 0
    for place in (found.start() for found in _BRACKETS.finditer(text)):
        sign = text[place]
        depth += (sign in "([") - (sign in ")]")
        if sign == "," and depth == 0:
            parts.append(text[start:place])
            start = place + 1
    return [*parts, text[start:]]


def _find_key(bare: str) -> str:
    """Read what an element, or what it stands in, must have, if that is plainly written."""
    last = _LAST.search(bare)
    if last is None:
        return ""
    tag, marks = last[1].lower(), _MARKS.findall(last[2])
    identity = next((mark for mark in marks if mark[0] == "#"), None)
    key = identity or next(iter(marks), "" if tag == "*" else tag)
    above = bare[: last.start()].rstrip() if bare[last.start() :][:1] == ">" else ""
    inner = _find_key(above) if above and not key else ""
    return f">{inner}" if inner and inner[0] != ">" else key


def _bare(text: str) -> str:
    """Leave brackets out of a selector; ``:x`` stands for an attribute that it asks for."""
    return _BRACKETED.sub("", _BRACKETED.sub("", _ASKED.sub(":x", text.strip())))
