"""Texts that are made once and fetched from a shelf from then on."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from builder.publishing.cards.run import Shelf
from builder.work.share import share


@dataclass(frozen=True, slots=True)
class Wanted:
    """A text that isn't made yet."""

    find_key: Callable[[], str]
    make: Callable[[], str]


def fetch_all(shelf: Shelf | None, wanted: Sequence[Wanted]) -> list[str]:
    """Return texts from a shelf; those that it lacks are made on all cores and kept there."""
    keys = [text.find_key() for text in wanted] if shelf else []
    pieces = [shelf.get(key) for key in keys] if shelf else [None] * len(wanted)
    missing = [place for place, piece in enumerate(pieces) if piece is None]
    fresh = dict(zip(missing, share(lambda place: wanted[place].make(), missing), strict=True))
    if shelf:
        for place, text in fresh.items():
            shelf.put(keys[place], text.encode())
    return [fresh[place] if piece is None else piece.decode() for place, piece in enumerate(pieces)]
