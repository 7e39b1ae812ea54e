"""Contrast of two colours by the formula of WCAG 2.2 (W3C, 2023)."""

import re

from builder.errors import InvalidValueError
from builder.sums.citation import Citation

WCAG = Citation(
    "wcag-2.2",
    "World Wide Web Consortium",
    2023,
    "contrast of two colours, at least 4.5 to 1 for text",
    "Web Content Accessibility Guidelines 2.2, 1.4.3",
)
LEAST_FOR_TEXT = 4.5
"""Success criterion 1.4.3, level AA, text of ordinary size."""

_COLOUR = re.compile(r"#([0-9a-f]{2})([0-9a-f]{2})([0-9a-f]{2})", re.IGNORECASE)
_WEIGHTS = (0.2126, 0.7152, 0.0722)
_KNEE = 0.04045


def contrast_ratio(first: str, second: str) -> float:
    """Return the contrast of two ``#rrggbb`` colours, from 1 to 21."""
    lighter, darker = sorted((relative_luminance(first), relative_luminance(second)), reverse=True)
    return (lighter + 0.05) / (darker + 0.05)


def relative_luminance(colour: str) -> float:
    """Return how bright a ``#rrggbb`` colour is, from 0 (black) to 1 (white)."""
    found = _COLOUR.fullmatch(colour)
    if found is None:
        raise InvalidValueError(f'"{colour}" is no colour', "give #rrggbb, such as #1f5e5b")
    channels = (int(part, 16) / 255 for part in found.groups())
    return sum(
        weight * _linear(channel) for weight, channel in zip(_WEIGHTS, channels, strict=True)
    )


def _linear(channel: float) -> float:
    return channel / 12.92 if channel <= _KNEE else ((channel + 0.055) / 1.055) ** 2.4
