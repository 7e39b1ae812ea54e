"""Texts that are made once and fetched from a shelf from then on."""

from collections.abc import Callable

from builder.publishing.cards.run import Shelf


def fetch(shelf: Shelf | None, find_key: Callable[[], str], make: Callable[[], str]) -> str:
    """Return a text from a shelf, or make it and keep it there; without a shelf, make it."""
    if shelf is None:
        return make()
    key = find_key()
    piece = shelf.get(key)
    if piece is not None:
        return piece.decode()
    text = make()
    shelf.put(key, text.encode())
    return text
