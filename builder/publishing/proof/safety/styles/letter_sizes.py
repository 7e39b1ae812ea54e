"""Sizes of letters as browsers have them, and as style sheets write them."""

from builder.publishing.proof.safety.styles.lengths import Letter, read_length

MEDIUM_PX = 16.0
_KEYWORDS_PX = {
    "xx-small": 9.0,
    "x-small": 10.0,
    "small": 13.0,
    "medium": MEDIUM_PX,
    "large": 18.0,
    "x-large": 24.0,
    "xx-large": 32.0,
    "xxx-large": 48.0,
}
"""As browsers have them at their ordinary letter of 16 pixels (common practice)."""
_STEPS = {"smaller": 1 / 1.2, "larger": 1.2}
OWN_SIZES = {
    "h1": "2em",
    "h2": "1.5em",
    "h3": "1.17em",
    "h4": "1em",
    "h5": "0.83em",
    "h6": "0.67em",
    "small": "smaller",
    "sub": "smaller",
    "sup": "smaller",
    "code": "0.8125em",
}
"""What browsers give elements (HTML, 15 Rendering; letters of code as they do in practice)."""


def read_size(value: str, above_px: float, root_px: float) -> float:
    """Return a size in pixels by that of what its element stands in; 0 if it can't be told."""
    if value in _STEPS:
        return above_px * _STEPS[value]
    known = _KEYWORDS_PX.get("medium" if value == "initial" else value)
    size = read_length(value, Letter(above_px, root_px, above_px)) if known is None else known
    return 0.0 if size is None else max(0.0, size)
