"""How far values of properties may go before words leave their place or aren't seen.

All limits are ours, on the safe side; a value that isn't understood is never within them.
"""

import math
import re
import unicodedata
from collections.abc import Callable
from functools import partial

from tinycss2 import parse_component_value_list  # type: ignore[import-untyped]

from builder.publishing.proof.safety.styles.lengths import Letter, list_lengths, read_length

Judge = Callable[[str, Letter], bool]

_NUMBER = re.compile(r"[+-]?(?:\d+\.?\d*|\.\d+)", re.ASCII)
_SHARE = re.compile(r"(\d+\.?\d*|\.\d+)%", re.ASCII)
_EASY_EM = (-0.06, 0.3)
_LEAST_WIDTH_PX = 160.0
_LEAST_SHARE = 40.0
_SIDE_PX = 200.0
_SIDE_SHARE = 25.0
_AWAY_PX = 160.0
_NUDGE_PX = 16.0
_SPILL_PX = 16.0
_LINE_SHARE = 0.3
_BORDER_PX = 40.0
_TABS = 16
_QUICK_S = 1.0
_SECOND = {"s": 1, "ms": 1000}
_NARROW_PX = 96.0


def _is_one_of(words: str, value: str, _letter: Letter) -> bool:
    return value in words.split("|")


def allow_words(words: str) -> Judge:
    """Return what lets only some words pass, parted by bars."""
    return partial(_is_one_of, words)


def _is_between(low: float, high: float, value: str, letter: Letter) -> bool:
    length = read_length(value, letter)
    return length is not None and low <= length <= high


def is_nudge(value: str, letter: Letter) -> bool:
    """Tell whether a place is hardly another."""
    return value == "auto" or _is_between(-_NUDGE_PX, _NUDGE_PX, value, letter)


def is_spacing(value: str, letter: Letter) -> bool:
    """Tell whether letters stand apart as in words."""
    low, high = (share * letter.em_px for share in _EASY_EM)
    return value == "normal" or _is_between(low, high, value, letter)


def is_word_spacing(value: str, letter: Letter) -> bool:
    """Tell whether words stand apart as on a line."""
    return value == "normal" or _is_between(-0.1 * letter.em_px, letter.em_px, value, letter)


def is_indent(value: str, letter: Letter) -> bool:
    """Tell whether a first line begins near its edge."""
    return _is_between(0, 3 * letter.em_px, value, letter)


def is_line_height(value: str, letter: Letter) -> bool:
    """Tell whether lines neither meet nor fly apart."""
    if value == "normal":
        return True
    if _NUMBER.fullmatch(value):
        return 1.0 <= float(value) <= 4
    share = _SHARE.fullmatch(value)
    if share:
        return 100 <= float(share[1]) <= 400
    return _is_between(letter.em_px, 4 * letter.em_px, value, letter)


def is_height(value: str, _letter: Letter) -> bool:
    """Tell whether a box is as high as what it holds."""
    return value in _FREE_SIZES


def is_width(value: str, letter: Letter) -> bool:
    """Tell whether a box is as wide as words need, and no wider than a phone."""
    share = _SHARE.fullmatch(value)
    if share:
        return _LEAST_SHARE <= float(share[1]) <= 100
    return value in _FREE_WIDTHS or _is_between(_LEAST_WIDTH_PX, 2 * _LEAST_WIDTH_PX, value, letter)


def is_most_width(value: str, letter: Letter) -> bool:
    """Tell whether a box may be as wide as words need."""
    share = _SHARE.fullmatch(value)
    if share:
        return float(share[1]) >= _LEAST_SHARE
    return value in _FREE_WIDTHS or _is_between(_LEAST_WIDTH_PX, math.inf, value, letter)


def is_letter_size(value: str, letter: Letter) -> bool:
    """Tell whether letters of others stay within a line or two."""
    is_word = value.replace("-", "").isalpha()
    share = _SHARE.fullmatch(value)
    if share:
        return float(share[1]) <= 400
    return is_word or _is_between(0, 6 * letter.em_px, value, letter)


def is_least_width(value: str, letter: Letter) -> bool:
    """Tell whether a box must be no wider than a phone."""
    share = _SHARE.fullmatch(value)
    if share:
        return float(share[1]) <= 100
    return value in _FREE_WIDTHS or _is_between(0, 2 * _LEAST_WIDTH_PX, value, letter)


def is_narrow(value: str, letter: Letter) -> bool:
    """Tell whether a box leaves room for others beside it on a phone."""
    return value == "auto" or _is_between(0, _NARROW_PX, value, letter)


def is_side(value: str, letter: Letter) -> bool:
    """Tell whether a distance at the side leaves words on the page."""
    share = _SHARE.fullmatch(value)
    if share:
        return float(share[1]) <= _SIDE_SHARE
    return value == "auto" or _is_between(0, _SIDE_PX, value, letter)


def is_distance(value: str, letter: Letter) -> bool:
    """Tell whether a distance above or below leaves words nearby."""
    share = _SHARE.fullmatch(value)
    return share is not None or value == "auto" or _is_between(0, _AWAY_PX, value, letter)


def is_gap(value: str, letter: Letter) -> bool:
    """Tell whether rows and columns stand near each other."""
    lengths = list_lengths(value, letter)
    is_known = all(length is not None and 0 <= length <= _AWAY_PX for length in lengths)
    return is_known and (bool(lengths) or value == "normal")


def is_raised(value: str, letter: Letter) -> bool:
    """Tell whether words stay on their line, or near it."""
    return value in _RAISED or _is_between(-letter.em_px, letter.em_px, value, letter)


def is_marker(value: str, _letter: Letter) -> bool:
    """Tell whether what stands before an entry of a list is one of the usual signs."""
    return set(value.split()) <= _MARKERS


def is_quick(value: str, _letter: Letter) -> bool:
    """Tell whether changes are over before anybody reads."""
    parts = _CURVES.sub("", value).split(",")
    return all(0 <= _add_seconds(part) <= _QUICK_S for part in parts)


def _add_seconds(change: str) -> float:
    """Return for how long a change lasts and is waited for; too long if that can't be told."""
    tokens = parse_component_value_list(change, skip_comments=True)
    if any(token.type == "function" for token in tokens):
        return math.inf
    times = [token for token in tokens if token.type == "dimension"]
    seconds = (max(0.0, each.value) / _SECOND.get(each.lower_unit, 1) for each in times)
    return math.fsum(seconds)


def is_tab(value: str, _letter: Letter) -> bool:
    """Tell whether a tab is no wider than some letters."""
    return _NUMBER.fullmatch(value) is not None and 0 <= float(value) <= _TABS


def is_quote(value: str, _letter: Letter) -> bool:
    """Tell whether quotation marks are marks, and no words."""
    return value in {"auto", "none"} or (
        _STRING.sub("", value).strip() == ""
        and all(is_sign(double or single) for double, single in _STRING.findall(value))
    )


def is_sign(text: str) -> bool:
    """Tell whether a text, of whatever part of a page, is a sign or two and says nothing."""
    kinds = {unicodedata.category(sign)[0] for sign in text}
    return len(text) <= _MOST_SIGNS and kinds <= {"P", "S", "Z"}


def is_border(value: str, letter: Letter) -> bool:
    """Tell whether a border, of whatever side, is too thin to push words away."""
    lengths = list_lengths(value, letter)
    return all(length is not None and 0 <= length <= _BORDER_PX for length in lengths)


def is_thin_line(value: str, letter: Letter) -> bool:
    """Tell whether a line stays under its words, by its thickness or its distance."""
    is_usual = value in {"auto", "from-font"}
    return is_usual or _is_between(0, _LINE_SHARE * letter.em_px, value, letter)


def is_layer(value: str, _letter: Letter) -> bool:
    """Tell whether a box doesn't lie under others."""
    return value == "auto" or (_NUMBER.fullmatch(value) is not None and float(value) >= 0)


def is_no_strike(value: str, _letter: Letter) -> bool:
    """Tell whether words aren't struck out."""
    return "line-through" not in value and "blink" not in value


def is_own_box(value: str, _letter: Letter) -> bool:
    """Tell whether a ground fills its box."""
    return set(re.split(r"[\s,]+", value)) <= {"border-box", "padding-box", "content-box"}


def is_outline(value: str, letter: Letter) -> bool:
    """Tell whether a line or shadow around a box stays beside it."""
    lengths = list_lengths(value, letter)
    return all(length is not None and abs(length) <= _SPILL_PX for length in lengths)


_FREE_WIDTHS = frozenset(
    {"auto", "none", "100%", "fit-content", "stretch", "-webkit-fill-available", "-moz-available"}
)
_RAISED = frozenset(
    {"baseline", "sub", "super", "text-top", "text-bottom", "middle", "top", "bottom"}
)
_MARKERS = frozenset(
    {"none", "inside", "outside", "disc", "circle", "square", "decimal", "decimal-leading-zero"}
    | {"lower-alpha", "upper-alpha", "lower-latin", "upper-latin", "lower-roman", "upper-roman"}
)
_CURVES = re.compile(r"(?:cubic-bezier|steps|linear)\([^()]*\)")
_STRING = re.compile(r"\"([^\"]*)\"|'([^']*)'")
_MOST_SIGNS = 3
_FREE_SIZES = frozenset(
    {"auto", "none", "100%", "max-content", "min-content", "fit-content", "stretch"}
    | {"-webkit-fill-available", "-moz-available"}
)
NONE = allow_words("none")
