"""Shades of a colour that can be read on the ground they stand on."""

from collections.abc import Iterable

from builder.sums.contrast import contrast_ratio

_STEPS = 20
_FINE_STEPS = 100


def lighten_until_read(colour: str, ground: str, least: float) -> str:
    """Mix a ``#rrggbb`` colour with white until its contrast on a dark ground is enough.

    White where no shade's is.
    """
    shades = (_mix_with_white(colour, step / _STEPS) for step in range(_STEPS))
    return next((shade for shade in shades if contrast_ratio(shade, ground) >= least), "#ffffff")


def darken_until_read(colour: str, grounds: Iterable[str], least: float) -> str:
    """Mix a ``#rrggbb`` colour with black until its contrast on every pale ground is enough.

    Black where no shade's is.
    """
    under = tuple(grounds)
    shades = (_mix_with_black(colour, step / _FINE_STEPS) for step in range(_FINE_STEPS))
    read = (
        shade for shade in shades if all(contrast_ratio(shade, ground) >= least for ground in under)
    )
    return next(read, "#000000")


def _mix_with_black(colour: str, share: float) -> str:
    return "#" + bytes(int(part * (1 - share)) for part in bytes.fromhex(colour[1:])).hex()


def _mix_with_white(colour: str, share: float) -> str:
    channels = bytes.fromhex(colour[1:])
    return "#" + bytes(round(part + (255 - part) * share) for part in channels).hex()
