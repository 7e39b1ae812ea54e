"""The setting of a card: how large its type is, and what gives way where room is short."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Setting:
    """How large a card's type is, and whether its parts run together."""

    points: float
    is_dense: bool
    has_small_figure: bool = False
    """On a card that is full even at the smallest type, the figure gives way."""
