"""Names: the nearest known one for a name that nothing has."""

from collections.abc import Iterable
from difflib import get_close_matches


def suggest(name: str, known: Iterable[str]) -> str:
    """Return ``did you mean "…"?`` as an imperative, or nothing where no name is near."""
    nearest = get_close_matches(name, sorted(known), n=1, cutoff=0.6)
    return f'write "{nearest[0]}" if that is meant' if nearest else ""
