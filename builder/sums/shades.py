"""Shades of a colour that can be read on a dark ground."""

from builder.sums.contrast import contrast_ratio

_STEPS = 20


def lighten_until_read(colour: str, ground: str, least: float) -> str:
    """Mix a ``#rrggbb`` colour with white until its contrast on a dark ground is enough."""
    shades = (_mix_with_white(colour, step / _STEPS) for step in range(_STEPS + 1))
    return next((shade for shade in shades if contrast_ratio(shade, ground) >= least), "#ffffff")


def _mix_with_white(colour: str, share: float) -> str:
    channels = (int(colour[start : start + 2], 16) for start in (1, 3, 5))
    return "#" + "".join(f"{round(part + (255 - part) * share):02x}" for part in channels)
