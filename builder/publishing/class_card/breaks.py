"""Where pages break: a block that runs on says so, and never parts from its own start."""

from collections.abc import Mapping
from dataclasses import dataclass

from builder.publishing.class_card.face import BlockFace, ClassFace


@dataclass(frozen=True, slots=True)
class Breaks:
    """What a card does about its page breaks."""

    carried: frozenset[tuple[int, int]] = frozenset()
    """Block and row, from 0, that begin a page and say whose they are."""
    moved: frozenset[int] = frozenset()
    """Blocks that begin a page, because their start would stand on another one."""


NO_BREAKS = Breaks()


def find_breaks(face: ClassFace, pages: Mapping[str, int], before: Breaks) -> Breaks:
    """Return what to do about the breaks of a card that was laid out with those found before.

    ``pages`` has the page of each row, ``row-6-0``, and of each start, ``rail-6``.
    """
    parted = {
        block.view.number
        for block in face.blocks
        if pages[f"rail-{block.view.number}"] != pages[f"row-{block.view.number}-0"]
    }
    if not parted <= before.moved:
        return Breaks(moved=before.moved | parted)
    carried = frozenset(
        (block.view.number, row) for block in face.blocks for row in _list_carried(block, pages)
    )
    return Breaks(carried, before.moved)


def _list_carried(block: BlockFace, pages: Mapping[str, int]) -> list[int]:
    own = [pages[f"row-{block.view.number}-{row}"] for row in range(len(block.rows))]
    return [row for row in range(1, len(own)) if own[row] > own[row - 1]]
