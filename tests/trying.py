"""How much is tried: enough for each change, far more with ``--hypothesis-profile=thorough``."""

from hypothesis import settings

THOROUGH = "thorough"


def count_tries(each_time: int, thorough: int) -> int:
    """Return how many cases are tried in this run."""
    return thorough if is_thorough() else each_time


def is_thorough() -> bool:
    """Tell whether this run was asked to try all that is worth a wait."""
    return settings.get_current_profile_name() == THOROUGH
