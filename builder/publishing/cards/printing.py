"""A card's faces to a finished, examined PDF. Runs in worker processes."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from functools import partial

from builder.course.audience import Audience
from builder.errors import FetchRefusedError
from builder.publishing.cards.face import CardFace
from builder.publishing.cards.fit import Fit, fit_side
from builder.publishing.cards.guess import Guess, guess_back, guess_front
from builder.publishing.cards.html import (
    measure_figure,
    read_style,
    stage_figure,
    write_back,
    write_front,
)
from builder.publishing.cards.pdf import Layout, Press, join_layouts, open_press
from builder.publishing.cards.record import CardRecord, SideRecord
from builder.publishing.cards.setting import Setting
from builder.publishing.cards.words import count_pictures, list_wanted_words
from builder.publishing.proof.read_back import find_missing_texts, join_readings, read_pdf
from builder.publishing.proof.structure.check import Wanted, find_structure_faults
from builder.publishing.proof.structure.source import Source
from builder.sums.paper import Paper

_BACK_OVER_FLOOR = 1.5


@dataclass(frozen=True, slots=True)
class _Side:
    """A side of a card: how it is written, and how full it should be."""

    paper: Paper
    write: Callable[[Setting], str]
    guess: Guess


def print_card(face: CardFace, press: Press | None = None) -> CardRecord:
    """Lay a card out at the largest type that fits, write it and read it back."""
    try:
        return _print_fitting(face, press or open_press())
    except FetchRefusedError as error:
        return CardRecord((), 0, (), 0, False, b"", error.message)


def _print_fitting(face: CardFace, press: Press) -> CardRecord:
    fits = fit_card(face, press)
    sides = tuple(SideRecord(fit.setting, fit.excess_mm) for fit in fits)
    if any(side.excess_mm for side in sides):
        return CardRecord(sides, 0, (), 0, False, b"")
    layout = join_layouts([fit.layout for fit in fits])
    return examine_card(face, sides, layout.write(is_archival=face.is_archival), layout.source)


def fit_card(face: CardFace, press: Press) -> tuple[Fit, ...]:
    """Lay out each side of a card at the largest type that fits."""
    style = read_style(face.paper)

    def lay_out(side: _Side, setting: Setting) -> Layout:
        return press.lay_out_apart(side.write(setting), style)

    return tuple(fit_side(partial(lay_out, side), side.paper, side.guess) for side in _sides(face))


def _sides(face: CardFace) -> Iterator[_Side]:
    pair = stage_figure(face)
    yield _Side(
        face.paper,
        partial(write_front, face, pair=pair),
        guess_front(face, face.paper, partial(measure_figure, face, pair)),
    )
    if face.audience is Audience.COACH:
        paper = _back_paper(face.paper)
        yield _Side(paper, partial(write_back, face), guess_back(face, paper))


def _back_paper(paper: Paper) -> Paper:
    """Return a paper on which a back's type doesn't outgrow the front's by much."""
    top = min(paper.top_points, paper.floor_points + _BACK_OVER_FLOOR)
    return replace(paper, top_points=top)


def examine_card(
    face: CardFace, sides: tuple[SideRecord, ...], pdf: bytes, source: Source
) -> CardRecord:
    """Read a finished card back and note what is missing, too small, off the paper or untold."""
    pages = read_pdf(pdf)
    return CardRecord(
        sides=sides,
        pages=len(pages),
        missing=find_missing_texts(join_readings(pages), list_wanted_words(face)),
        smallest_points=min((page.smallest_points for page in pages), default=0),
        has_words_outside=any(page.has_words_outside for page in pages),
        pdf=pdf,
        faults=find_structure_faults(
            pdf,
            Wanted(
                source,
                is_archival=face.is_archival,
                pictures=count_pictures(face, is_dense=sides[0].setting.is_dense),
            ),
        ),
    )
