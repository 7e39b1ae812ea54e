"""Which values of properties leave words in their place, whole and to be seen."""

from collections.abc import Mapping

from builder.publishing.proof.safety.sighting import Lack
from builder.publishing.proof.safety.styles.limits import (
    NONE,
    Judge,
    allow_words,
    is_border,
    is_distance,
    is_gap,
    is_height,
    is_indent,
    is_layer,
    is_least_width,
    is_letter_size,
    is_line_height,
    is_marker,
    is_most_width,
    is_narrow,
    is_no_strike,
    is_nudge,
    is_outline,
    is_own_box,
    is_quick,
    is_quote,
    is_raised,
    is_side,
    is_spacing,
    is_tab,
    is_thin_line,
    is_width,
    is_word_spacing,
)

PLACING: Mapping[str, Judge] = {
    "position": allow_words("static|relative"),
    **dict.fromkeys(("top", "right", "bottom", "left"), is_nudge),
    "transform": allow_words("none|scale(1)"),
    "translate": allow_words("none|0"),
    "rotate": NONE,
    "scale": allow_words("none|1"),
    "perspective": NONE,
    "offset-path": NONE,
    "zoom": allow_words("1|normal|100%"),
    "text-indent": is_indent,
    "animation-name": NONE,
    "margin-left": is_side,
    "margin-right": is_side,
    "margin-top": is_distance,
    "margin-bottom": is_distance,
    "padding-left": is_side,
    "padding-right": is_side,
    "padding-top": is_distance,
    "padding-bottom": is_distance,
    "border-width": is_border,
    "line-height": is_line_height,
    "height": is_height,
    "max-height": is_height,
    "writing-mode": allow_words("horizontal-tb"),
}
"""What can move words away, or move anything over them."""

SPILLING: Mapping[str, Judge] = {
    "box-shadow": is_outline,
    "text-shadow": is_outline,
    "outline": is_outline,
    "outline-width": is_outline,
    "outline-offset": is_outline,
    "filter": NONE,
    "-webkit-filter": NONE,
    "-webkit-text-stroke": is_outline,
    "-webkit-text-stroke-width": is_outline,
    "text-decoration-thickness": is_thin_line,
    "text-underline-offset": is_thin_line,
    "border-image-outset": allow_words("0"),
    "-webkit-box-reflect": NONE,
    "grid-area": allow_words("auto"),
    "grid-row": allow_words("auto"),
    "grid-column": allow_words("auto"),
}
"""What paints beyond its own box."""

SHOWING: Mapping[str, Judge] = {
    "clip": allow_words("auto"),
    "clip-path": NONE,
    "-webkit-clip-path": NONE,
    **dict.fromkeys(
        (f"{maker}{name}" for maker in ("", "-webkit-") for name in ("mask", "mask-image")), NONE
    ),
    "-webkit-mask-box-image": NONE,
    "mask-border": NONE,
    "backdrop-filter": NONE,
    "mix-blend-mode": allow_words("normal"),
    "z-index": is_layer,
    "letter-spacing": is_spacing,
    "word-spacing": is_word_spacing,
    "white-space": allow_words("normal|pre-wrap|pre-line|break-spaces"),
    "text-wrap": allow_words("wrap|balance|pretty|stable|auto"),
    "text-wrap-mode": allow_words("wrap"),
    "white-space-collapse": allow_words("collapse|preserve|preserve-breaks"),
    "unicode-bidi": allow_words("normal|isolate|embed|plaintext"),
    "text-orientation": allow_words("mixed"),
    "-webkit-text-security": NONE,
    "-webkit-line-clamp": NONE,
    "line-clamp": NONE,
    "width": is_width,
    "max-width": is_most_width,
    "min-width": is_narrow,
    "gap": is_gap,
    "border-spacing": is_gap,
    "vertical-align": is_raised,
    "list-style": is_marker,
    "quotes": is_quote,
    "tab-size": is_tab,
    "transition": is_quick,
    "font-style": allow_words("normal|italic|oblique"),
    "content": allow_words("normal|none"),
    "contain": NONE,
    "content-visibility": allow_words("visible|auto"),
    "backface-visibility": allow_words("visible"),
    "text-decoration-line": is_no_strike,
    "text-transform": allow_words("none|uppercase|lowercase|capitalize"),
    "background-clip": is_own_box,
    "-webkit-background-clip": is_own_box,
    "flex-direction": allow_words("row|column"),
    "order": allow_words("0"),
    "column-count": allow_words("auto|1"),
    "column-width": allow_words("auto"),
    "font-size-adjust": NONE,
    "font-variant": allow_words("normal|small-caps|tabular-nums|lining-nums"),
    "grid-template-columns": NONE,
    "border-radius": is_border,
    "-webkit-text-size-adjust": allow_words("none|auto|100%"),
    "text-size-adjust": allow_words("none|auto|100%"),
    "display": allow_words(
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
    | {"font-variant", "-webkit-text-size-adjust", "text-size-adjust"}
    | {"text-transform", "font-size-adjust", "text-underline-offset", "font-style"}
    | {"border-spacing", "list-style", "quotes", "tab-size"}
)
"""What elements take from what they stand in."""

JUDGES: Mapping[str, Judge] = {**PLACING, **SPILLING, **SHOWING}
COVERING: Mapping[str, Judge] = {
    **PLACING,
    **SPILLING,
    "min-width": is_least_width,
    "font-size": is_letter_size,
}
"""What a sheet that isn't ours may set on no element of a page but plainly."""

_OUTSIDE = frozenset(PLACING) - {"line-height", "height", "max-height", "writing-mode"}


def tell_lack(name: str) -> Lack:
    """Say what words lack by a property that isn't plain."""
    if name == "z-index":
        return Lack.COVERED
    return Lack.OUTSIDE if name in _OUTSIDE - {"animation-name"} else Lack.HIDDEN
