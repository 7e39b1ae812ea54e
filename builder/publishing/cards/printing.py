"""A card's faces to a finished, examined PDF. Runs in worker processes."""

from collections.abc import Callable, Sequence
from dataclasses import replace
from functools import partial

from builder.course.audience import Audience
from builder.publishing.cards.face import CardFace
from builder.publishing.cards.fit import fit_side
from builder.publishing.cards.html import read_style, write_back, write_front
from builder.publishing.cards.pdf import Layout, Press, join_layouts, open_press
from builder.publishing.cards.record import CardRecord, SideRecord
from builder.publishing.cards.setting import Setting
from builder.publishing.cards.words import count_parts, count_words, list_wanted_words
from builder.publishing.proof.read_back import find_missing_texts, join_readings, read_pdf
from builder.sums.paper import Paper

_BACK_OVER_FLOOR = 1.5

WriteSide = Callable[[CardFace, Setting], str]


def print_card(face: CardFace, press: Press | None = None) -> CardRecord:
    """Lay a card out at the largest type that fits, write it and read it back."""
    press = press or open_press()
    sides, layouts = [], []
    for write, words in _list_sides(face):
        paper = face.paper if write is write_front else _back_paper(face.paper)
        fit = fit_side(partial(_lay_out, press, face, write), paper, words)
        sides.append(SideRecord(fit.setting, fit.excess_mm))
        layouts.append(fit.layout)
    return _finish(face, sides, layouts)


def _lay_out(press: Press, face: CardFace, write: WriteSide, setting: Setting) -> Layout:
    return press.lay_out_apart(write(face, setting), read_style(face.paper))


def _back_paper(paper: Paper) -> Paper:
    """Return a paper on which a back's type doesn't outgrow the front's by much."""
    top = min(paper.top_points, paper.floor_points + _BACK_OVER_FLOOR)
    return replace(paper, top_points=top)


def _list_sides(face: CardFace) -> list[tuple[WriteSide, int]]:
    """Return how each side is written, with about how many words it has."""
    front: tuple[WriteSide, int] = (write_front, count_words(face))
    if face.audience is Audience.CLIENT:
        return [front]
    return [front, (write_back, sum(count_parts(face, back=True).values()))]


def _finish(face: CardFace, sides: Sequence[SideRecord], layouts: Sequence[Layout]) -> CardRecord:
    if any(side.excess_mm for side in sides):
        return CardRecord(tuple(sides), 0, (), 0, False, b"")
    return examine_card(face, tuple(sides), join_layouts(layouts).write())


def examine_card(face: CardFace, sides: tuple[SideRecord, ...], pdf: bytes) -> CardRecord:
    """Read a finished card back and note what is missing, too small or off the paper."""
    pages = read_pdf(pdf)
    return CardRecord(
        sides=sides,
        pages=len(pages),
        missing=find_missing_texts(join_readings(pages), list_wanted_words(face)),
        smallest_points=min((page.smallest_points for page in pages), default=0),
        has_words_outside=any(page.has_words_outside for page in pages),
        pdf=pdf,
    )
