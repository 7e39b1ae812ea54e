"""The limits a course is held to; a studio may tighten them."""

from dataclasses import dataclass, fields


@dataclass(frozen=True, slots=True)
class Limits:
    """What a drill may ask, with the defaults that hold when a course says nothing."""

    cycle_min_seconds: float = 4
    cycle_max_seconds: float = 20
    hold_max_seconds: float = 6
    limb_up_max_seconds: float = 5
    """The longest phase of a drill in which a limb is in the air (common practice: 4-1-4-1)."""
    box_max_minutes: float = 5
    """Equal-phase breathing was studied at 5 minutes a day (Balban et al. 2023)."""
    review_days: int = 365
    grade_warn: float = 6
    """Reading grade for patient text, by the AMA's advice (Weiss 2007)."""
    grade_error: float = 8
    sentence_words: int = 25
    cue_words: int = 9
    set_up_seconds: int = 30
    """What getting into the position is reckoned to take (common practice)."""


LIMIT_NAMES = tuple(field.name for field in fields(Limits))
WHOLE_LIMITS = frozenset(field.name for field in fields(Limits) if field.type is int)
"""Limits that count days, words or whole seconds."""
LOOSER_IS_LOWER = frozenset({"cycle_min_seconds", "set_up_seconds"})
"""Limits that are loosened by lowering them; all others by raising them."""


def loosens(name: str, value: float) -> bool:
    """Tell whether a value allows more than the default does."""
    default = float(getattr(Limits(), name))
    return value < default if name in LOOSER_IS_LOWER else value > default
