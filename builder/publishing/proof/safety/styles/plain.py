"""Which values of properties leave words in their place, whole and to be seen.

All limits are ours, on the safe side; a value that isn't understood is never plain.
"""

import re
from collections.abc import Callable, Mapping
from functools import partial

from builder.publishing.proof.safety.sighting import Lack
from builder.publishing.proof.safety.styles.lengths import Letter, list_lengths, read_length

Judge = Callable[[str, Letter], bool]

_NUMBER = re.compile(r"[+-]?(?:\d+\.?\d*|\.\d+)", re.ASCII)
_SHARE = re.compile(r"(\d+\.?\d*|\.\d+)%", re.ASCII)
_EASY_EM = (-0.06, 0.3)
_LEAST_WIDTH_PX = 160.0
_LEAST_SHARE = 40.0
_SIDE_PX = 200.0
_SIDE_SHARE = 25.0
_AWAY_PX = 2000.0
_NUDGE_PX = 16.0
_SPILL_PX = 16.0
_LINE_SHARE = 0.3
_BORDER_PX = 40.0


def _is_one_of(words: str, value: str, _letter: Letter) -> bool:
    return value in words.split("|")


def _words(words: str) -> Judge:
    return partial(_is_one_of, words)


def _is_between(low: float, high: float, value: str, letter: Letter) -> bool:
    length = read_length(value, letter)
    return length is not None and low <= length <= high


def _is_nudge(value: str, letter: Letter) -> bool:
    return value == "auto" or _is_between(-_NUDGE_PX, _NUDGE_PX, value, letter)


def _is_spacing(value: str, letter: Letter) -> bool:
    low, high = (share * letter.em_px for share in _EASY_EM)
    return value == "normal" or _is_between(low, high, value, letter)


def _is_word_spacing(value: str, letter: Letter) -> bool:
    return value == "normal" or _is_between(-0.1 * letter.em_px, letter.em_px, value, letter)


def _is_indent(value: str, letter: Letter) -> bool:
    return _is_between(0, 3 * letter.em_px, value, letter)


def _is_line_height(value: str, letter: Letter) -> bool:
    if value == "normal":
        return True
    if _NUMBER.fullmatch(value):
        return 1.0 <= float(value) <= 4
    share = _SHARE.fullmatch(value)
    if share:
        return 100 <= float(share[1]) <= 400
    return _is_between(letter.em_px, 4 * letter.em_px, value, letter)


def _is_height(value: str, _letter: Letter) -> bool:
    return value in _FREE_SIZES


def _is_width(value: str, letter: Letter) -> bool:
    share = _SHARE.fullmatch(value)
    if share:
        return _LEAST_SHARE <= float(share[1]) <= 100
    return value in _FREE_SIZES or _is_between(_LEAST_WIDTH_PX, 10 * _AWAY_PX, value, letter)


def _is_least_width(value: str, letter: Letter) -> bool:
    share = _SHARE.fullmatch(value)
    if share:
        return float(share[1]) <= 100
    return value in _FREE_SIZES or _is_between(0, 2 * _LEAST_WIDTH_PX, value, letter)


def _is_side(value: str, letter: Letter) -> bool:
    share = _SHARE.fullmatch(value)
    if share:
        return float(share[1]) <= _SIDE_SHARE
    return value == "auto" or _is_between(0, _SIDE_PX, value, letter)


def _is_distance(value: str, letter: Letter) -> bool:
    share = _SHARE.fullmatch(value)
    return share is not None or value == "auto" or _is_between(0, _AWAY_PX, value, letter)


def _is_border(value: str, letter: Letter) -> bool:
    """Tell whether a border, of whatever side, is too thin to push words away."""
    lengths = list_lengths(value, letter)
    return all(length is not None and 0 <= length <= _BORDER_PX for length in lengths)


def _is_thin_line(value: str, letter: Letter) -> bool:
    """Tell whether a line stays under its words, by its thickness or its distance."""
    is_usual = value in {"auto", "from-font"}
    return is_usual or _is_between(0, _LINE_SHARE * letter.em_px, value, letter)


def _is_layer(value: str, _letter: Letter) -> bool:
    return value == "auto" or (_NUMBER.fullmatch(value) is not None and float(value) >= 0)


def _is_no_strike(value: str, _letter: Letter) -> bool:
    return "line-through" not in value and "blink" not in value


def _is_own_box(value: str, _letter: Letter) -> bool:
    return set(re.split(r"[\s,]+", value)) <= {"border-box", "padding-box", "content-box"}


def _is_outline(value: str, letter: Letter) -> bool:
    """Tell whether a line or shadow around a box stays beside it."""
    lengths = list_lengths(value, letter)
    return all(length is not None and abs(length) <= _SPILL_PX for length in lengths)


_FREE_SIZES = frozenset(
    {"auto", "none", "100%", "max-content", "min-content", "fit-content", "stretch"}
    | {"-webkit-fill-available", "-moz-available"}
)
_NONE = _words("none")

PLACING: Mapping[str, Judge] = {
    "position": _words("static|relative"),
    **dict.fromkeys(("top", "right", "bottom", "left"), _is_nudge),
    "transform": _words("none|scale(1)"),
    "translate": _words("none|0"),
    "rotate": _NONE,
    "scale": _words("none|1"),
    "perspective": _NONE,
    "offset-path": _NONE,
    "zoom": _words("1|normal|100%"),
    "text-indent": _is_indent,
    "animation-name": _NONE,
    "margin-left": _is_side,
    "margin-right": _is_side,
    "margin-top": _is_distance,
    "margin-bottom": _is_distance,
    "padding-left": _is_side,
    "padding-right": _is_side,
    "padding-top": _is_distance,
    "padding-bottom": _is_distance,
    "border-width": _is_border,
    "line-height": _is_line_height,
    "height": _is_height,
    "max-height": _is_height,
    "writing-mode": _words("horizontal-tb"),
}
"""What can move words away, or move anything over them."""

SPILLING: Mapping[str, Judge] = {
    "box-shadow": _is_outline,
    "text-shadow": _is_outline,
    "outline": _is_outline,
    "outline-width": _is_outline,
    "outline-offset": _is_outline,
    "filter": _NONE,
    "-webkit-filter": _NONE,
    "-webkit-text-stroke": _is_outline,
    "-webkit-text-stroke-width": _is_outline,
    "text-decoration-thickness": _is_thin_line,
    "text-underline-offset": _is_thin_line,
    "border-image-outset": _words("0"),
    "-webkit-box-reflect": _NONE,
    "grid-area": _words("auto"),
    "grid-row": _words("auto"),
    "grid-column": _words("auto"),
}
"""What paints beyond its own box."""

SHOWING: Mapping[str, Judge] = {
    "clip": _words("auto"),
    "clip-path": _NONE,
    "-webkit-clip-path": _NONE,
    **dict.fromkeys(
        (f"{maker}{name}" for maker in ("", "-webkit-") for name in ("mask", "mask-image")), _NONE
    ),
    "-webkit-mask-box-image": _NONE,
    "mask-border": _NONE,
    "backdrop-filter": _NONE,
    "mix-blend-mode": _words("normal"),
    "z-index": _is_layer,
    "letter-spacing": _is_spacing,
    "word-spacing": _is_word_spacing,
    "white-space": _words("normal|pre-wrap|pre-line|break-spaces"),
    "text-wrap": _words("wrap|balance|pretty|stable|auto"),
    "text-wrap-mode": _words("wrap"),
    "white-space-collapse": _words("collapse|preserve|preserve-breaks"),
    "unicode-bidi": _words("normal|isolate|embed|plaintext"),
    "text-orientation": _words("mixed"),
    "-webkit-text-security": _NONE,
    "-webkit-line-clamp": _NONE,
    "line-clamp": _NONE,
    "width": _is_width,
    "max-width": _is_width,
    "min-width": _is_least_width,
    "content": _words("normal|none"),
    "contain": _NONE,
    "content-visibility": _words("visible|auto"),
    "backface-visibility": _words("visible"),
    "text-decoration-line": _is_no_strike,
    "text-transform": _words("none|uppercase|lowercase|capitalize"),
    "background-clip": _is_own_box,
    "-webkit-background-clip": _is_own_box,
    "flex-direction": _words("row|column"),
    "order": _words("0"),
    "column-count": _words("auto|1"),
    "column-width": _words("auto"),
    "font-size-adjust": _NONE,
    "display": _words(
        "block|inline|inline-block|flex|inline-flex|grid|inline-grid|list-item|flow-root|contents|"
        "table|inline-table|table-row|table-cell|table-row-group|table-header-group|"
        "table-footer-group|table-caption|flow|block flow|inline flow"
    ),
}
"""What can keep words from being seen where they stand."""

INHERITED = frozenset(
    {"line-height", "text-indent", "letter-spacing", "word-spacing", "white-space", "text-wrap"}
    | {"text-wrap-mode", "white-space-collapse", "writing-mode", "text-orientation"}
    | {"text-shadow", "-webkit-text-stroke", "-webkit-text-stroke-width", "-webkit-text-security"}
    | {"text-transform", "font-size-adjust", "text-underline-offset"}
)
"""What elements take from what they stand in."""

JUDGES: Mapping[str, Judge] = {**PLACING, **SPILLING, **SHOWING}
COVERING: Mapping[str, Judge] = {**PLACING, **SPILLING}
"""What a sheet that isn't ours may set on no element of a page but plainly."""

_OUTSIDE = frozenset(PLACING) - {"line-height", "height", "max-height", "writing-mode"}


def tell_lack(name: str) -> Lack:
    """Say what words lack by a property that isn't plain."""
    if name == "z-index":
        return Lack.COVERED
    return Lack.OUTSIDE if name in _OUTSIDE - {"animation-name"} else Lack.HIDDEN


HARMLESS = frozenset(
    [
        "-webkit-appearance",
        "-webkit-box-decoration-break",
        "-webkit-font-smoothing",
        "-webkit-hyphens",
        "-webkit-print-color-adjust",
        "-webkit-tap-highlight-color",
        "-webkit-text-size-adjust",
        "-webkit-user-select",
        "accent-color",
        "align-content",
        "align-items",
        "align-self",
        "appearance",
        "background-attachment",
        "background-origin",
        "background-position",
        "background-repeat",
        "background-size",
        "border-bottom-color",
        "border-bottom-left-radius",
        "border-bottom-right-radius",
        "border-bottom-style",
        "border-collapse",
        "border-color",
        "border-left-color",
        "border-left-style",
        "border-radius",
        "border-right-color",
        "border-right-style",
        "border-spacing",
        "border-style",
        "border-top-color",
        "border-top-left-radius",
        "border-top-right-radius",
        "border-top-style",
        "box-decoration-break",
        "box-sizing",
        "break-after",
        "break-before",
        "break-inside",
        "caption-side",
        "caret-color",
        "clear",
        "column-gap",
        "column-rule",
        "counter-increment",
        "counter-reset",
        "counter-set",
        "cursor",
        "empty-cells",
        "fill",
        "flex-wrap",
        "float",
        "font-kerning",
        "font-optical-sizing",
        "font-style",
        "font-synthesis",
        "font-variant",
        "font-variant-numeric",
        "font-weight",
        "gap",
        "grid-gap",
        "grid-template-columns",
        "hanging-punctuation",
        "hyphens",
        "image-rendering",
        "isolation",
        "justify-content",
        "justify-items",
        "justify-self",
        "line-break",
        "list-style",
        "list-style-position",
        "list-style-type",
        "object-fit",
        "object-position",
        "orphans",
        "outline-color",
        "outline-style",
        "overflow-wrap",
        "overscroll-behavior",
        "page-break-after",
        "page-break-before",
        "page-break-inside",
        "place-content",
        "place-items",
        "place-self",
        "pointer-events",
        "print-color-adjust",
        "quotes",
        "resize",
        "row-gap",
        "scroll-behavior",
        "scroll-margin",
        "scroll-margin-top",
        "scroll-padding",
        "scroll-padding-top",
        "scrollbar-color",
        "scrollbar-gutter",
        "scrollbar-width",
        "stroke",
        "stroke-width",
        "tab-size",
        "table-layout",
        "text-align",
        "text-align-last",
        "text-decoration-color",
        "text-decoration-skip-ink",
        "text-decoration-style",
        "text-emphasis",
        "text-justify",
        "text-rendering",
        "text-size-adjust",
        "touch-action",
        "transform-origin",
        "transition",
        "transition-duration",
        "transition-property",
        "user-select",
        "vertical-align",
        "widows",
        "will-change",
        "word-break",
        "word-wrap",
    ]
)
"""What others' sheets may set as they like: it neither hides words nor covers any."""
