"""Prints a batch: cards first, then the packs from the same pages. Loads the PDF engine."""

import gc
from collections.abc import Iterator

from builder.publishing.cards.batch import Batch, PrintedBatch
from builder.publishing.cards.pack_plan import Pack
from builder.publishing.cards.packs import print_pack
from builder.publishing.cards.pdf import Layout, Press, open_press
from builder.publishing.cards.printing import PrintedCard, lay_out_again, print_card

_CARDS_BETWEEN_COLLECTIONS = 12
"""Laid-out pages are full of cycles: to collect at every turn takes a sixth of the time."""


def print_batch(batch: Batch) -> PrintedBatch:
    """Print what isn't known yet, each card once, and bind the packs from the same pages."""
    press = open_press()
    was_collecting = gc.isenabled()
    gc.disable()
    try:
        return _print_batch(batch, press)
    finally:
        if was_collecting:
            gc.enable()


def _print_batch(batch: Batch, press: Press) -> PrintedBatch:
    printed = {
        face.lesson.id: card
        for face, card in zip(batch.faces, _print_all(batch, press), strict=True)
    }
    layouts = {name: card.layout for name, card in printed.items() if card.record.pdf}
    return PrintedBatch(
        tuple(printed[face.lesson.id].record for face in batch.faces),
        tuple(_bind(pack, layouts, press) for pack in batch.packs),
    )


def _print_all(batch: Batch, press: Press) -> Iterator[PrintedCard]:
    for number, (face, record) in enumerate(zip(batch.faces, batch.records, strict=True), 1):
        if number % _CARDS_BETWEEN_COLLECTIONS == 0:
            gc.collect()
        if record is None:
            yield print_card(face, press)
        else:
            yield PrintedCard(record, lay_out_again(face, record, press))


def _bind(pack: Pack, layouts: dict[str, Layout], press: Press) -> bytes:
    """Print a pack, or nothing while one of its cards is missing."""
    if any(entry.id not in layouts for chapter in pack.chapters for entry in chapter.entries):
        return b""
    return print_pack(pack, layouts, press)
