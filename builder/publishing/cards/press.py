"""Prints a batch of cards in a worker process. Loads the PDF engine."""

import gc
from collections.abc import Iterator
from functools import cache

from builder.publishing.cards.face import CardFace
from builder.publishing.cards.pdf import Press, open_press
from builder.publishing.cards.printing import print_card
from builder.publishing.cards.record import CardRecord

_CARDS_BETWEEN_COLLECTIONS = 12
"""Laid-out pages are full of cycles: to collect at every turn takes a sixth of the time."""


@cache
def _settle() -> Press:
    """Open the press, and take all that stays from what is looked through for garbage."""
    press = open_press()
    gc.collect()
    gc.freeze()
    return press


def print_batch(faces: tuple[CardFace, ...]) -> tuple[CardRecord, ...]:
    """Print cards in their order."""
    was_collecting = gc.isenabled()
    gc.disable()
    try:
        return tuple(_print_all(faces))
    finally:
        if was_collecting:
            gc.enable()


def _print_all(faces: tuple[CardFace, ...]) -> Iterator[CardRecord]:
    press = _settle()
    for number, face in enumerate(faces, 1):
        yield print_card(face, press)
        if number % _CARDS_BETWEEN_COLLECTIONS == 0 or number == len(faces):
            gc.collect()
