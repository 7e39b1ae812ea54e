"""Page breaks of a card: whose block runs on, and which block moves as a whole."""

from builder.publishing.class_card.breaks import NO_BREAKS, Breaks, find_breaks
from builder.publishing.class_card.face import ClassFace
from builder.publishing.class_card.html import make_face
from builder.publishing.class_card.setting import Level
from tests.publishing.class_card.cards import find_smallest
from tests.publishing.demo_classes import view_demo


def make_pages(face: ClassFace, later: tuple[str, ...]) -> dict[str, int]:
    """Put everything on the first page but what is named."""
    names = [f"rail-{block.view.number}" for block in face.blocks]
    names += [
        f"row-{block.view.number}-{row}" for block in face.blocks for row in range(len(block.rows))
    ]
    return {name: int(name in later) for name in names}


FACE = make_face(view_demo("2026-11-26-small"), find_smallest(Level.TIGHT))


def test_a_block_that_runs_on_says_so_in_its_first_row_there() -> None:
    pages = make_pages(FACE, ("row-1-1",))
    assert find_breaks(FACE, pages, NO_BREAKS) == Breaks(carried=frozenset({(1, 1)}))


def test_a_block_whose_start_would_stand_alone_moves() -> None:
    for parted in ("rail-2", "row-2-0"):
        pages = make_pages(FACE, (parted,))
        assert find_breaks(FACE, pages, NO_BREAKS) == Breaks(moved=frozenset({2}))


def test_whole_blocks_need_nothing() -> None:
    assert find_breaks(FACE, make_pages(FACE, ()), NO_BREAKS) == NO_BREAKS
