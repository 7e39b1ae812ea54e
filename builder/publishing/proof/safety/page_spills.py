"""What declarations of a style sheet could bring over the words of a page."""

import re

from builder.publishing.proof.safety.styles.harmless import HARMLESS
from builder.publishing.proof.safety.styles.judged import WORKED_OUT
from builder.publishing.proof.safety.styles.lengths import Letter
from builder.publishing.proof.safety.styles.limits import is_sign
from builder.publishing.proof.safety.styles.longhands import list_longhands
from builder.publishing.proof.safety.styles.matches import Match
from builder.publishing.proof.safety.styles.plain import COVERING, JUDGES
from builder.publishing.proof.safety.styles.sheets import Declaration

_REPLACED = frozenset(
    {"img", "svg", "video", "iframe", "hr", "canvas", "input", "picture", "button"}
)
_CONTENT = re.compile(
    r"none|normal|([\"'])(?P<text>.*)\1|counter\([\w-]+(?:,\s*(?:decimal|lower-\w+|upper-\w+))?\)"
)
OUTER = " "
"""Stands for all elements outside the article, where nothing may be as high as it likes."""
_LETTER = Letter(16.0, 16.0)


def may_cover(each: Declaration, tag: str) -> bool:
    """Tell whether a declaration could bring an element of a kind over others."""
    if each.name.startswith("--") or each.name in HARMLESS:
        return False
    return any(
        _spills(name, value, tag) for name, value in list_longhands(each.name, each.value.lower())
    )


def _spills(name: str, value: str, tag: str) -> bool:
    if name in {"height", "max-height"} and tag in _REPLACED:
        return False
    if name.startswith("overflow-") and tag in {*_REPLACED, ""}:
        return "visible" in value or "var(" in value
    if name in COVERING:
        return value not in {"initial", "unset"} and not COVERING[name](value, _LETTER)
    return name not in JUDGES and name not in WORKED_OUT


def is_loud(match: Match, tag: str = "") -> bool:
    """Tell whether a rule could bring an element of a kind over others, or puts words beside it."""
    is_part = match.selector.part is not None
    return any(
        may_cover(each, tag) or (is_part and _is_long_content(each))
        for each in match.rule.declarations
    )


def _is_long_content(each: Declaration) -> bool:
    """Tell whether a part puts words beside those of the page."""
    if each.name != "content":
        return False
    found = _CONTENT.fullmatch(each.value)
    return found is None or not is_sign(found["text"] or "")
