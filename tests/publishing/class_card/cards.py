"""Class cards of made-up classes, and what a reader of a finished card finds on its pages."""

from collections.abc import Sequence
from dataclasses import replace
from itertools import combinations

import pypdfium2
import pypdfium2.raw as pdfium

from builder.publishing.class_card.html import make_face
from builder.publishing.class_card.printing import lay_out_card
from builder.publishing.class_card.setting import SETTINGS, ClassSetting, Level
from builder.publishing.class_card.words import find_missing_marks, find_missing_words
from builder.publishing.proof.read_back import join_readings, read_pdf
from builder.publishing.views.class_view import BlockView, ClassView
from builder.sums.paper import PAPERS

_OVERLAP = 0.15
"""Boxes of letters that stand apart share less; neighbours and ligatures don't count (ours)."""

Box = tuple[float, float, float, float]


def find_smallest(level: Level) -> ClassSetting:
    """Return the setting of a level with the smallest type."""
    return next(each for each in reversed(SETTINGS) if each.level is level)


def rename(view: ClassView, names: Sequence[str]) -> ClassView:
    """Give the people of a class other names, the first first."""
    people = tuple(
        (person, names[index] if index < len(names) else name)
        for index, (person, name) in enumerate(view.people)
    )
    return replace(view, people=people)


def change_turns(view: ClassView, **values: object) -> ClassView:
    """Change something in every turn of a class."""

    def change_block(block: BlockView) -> BlockView:
        return replace(block, turns=tuple(replace(turn, **values) for turn in block.turns))  # type: ignore[arg-type]  # names of fields are given by tests

    return replace(
        view,
        blocks=tuple(map(change_block, view.blocks)),
        spare=tuple(map(change_block, view.spare)),
    )


def find_faults(view: ClassView, setting: ClassSetting, paper: str) -> tuple[str, ...]:
    """Print a card at a setting, however many pages it takes, and name all that is wrong."""
    face = make_face(view, setting)
    pdf = lay_out_card(view, setting, PAPERS[paper]).write()
    pages = read_pdf(pdf)
    return (
        *find_missing_words(face, join_readings(pages)),
        *find_missing_marks(face, tuple(page.text for page in pages)),
        *("words outside" for page in pages if page.has_words_outside),
        *("small type" for page in pages if page.smallest_points < 9),
        *find_overlaps(pdf),
    )


def find_overlaps(pdf: bytes) -> tuple[str, ...]:
    """Name letters that lie upon each other on a page."""
    document = pypdfium2.PdfDocument(pdf)
    try:
        return tuple(
            f"page {number}: {found}"
            for number in range(len(document))
            for found in _find_overlaps(document[number])
        )
    finally:
        document.close()


def _find_overlaps(page: pypdfium2.PdfPage) -> list[str]:
    words = page.get_textpage()
    text = "".join(chr(pdfium.FPDFText_GetUnicode(words, i)) for i in range(words.count_chars()))
    cells: dict[tuple[int, int], list[tuple[int, Box]]] = {}
    for index in range(words.count_chars()):
        box = words.get_charbox(index)
        if text[index].isalnum() and box[2] > box[0] and box[3] > box[1]:
            cell = (int(box[0] // 20), int(box[1] // 20))
            cells.setdefault(cell, []).append((index, box))
    return [
        f"{text[max(one - 8, 0) : one + 8]!r} on {text[max(other - 8, 0) : other + 8]!r}"
        for own in cells.values()
        for (one, here), (other, there) in combinations(own, 2)
        if other > one + 2 and _share(here, there) > _OVERLAP
    ]


def _share(one: Box, other: Box) -> float:
    """Return how much of the smaller box lies in the other."""
    width = min(one[2], other[2]) - max(one[0], other[0])
    height = min(one[3], other[3]) - max(one[1], other[1])
    smaller = min((box[2] - box[0]) * (box[3] - box[1]) for box in (one, other))
    return max(width, 0) * max(height, 0) / smaller
