"""A class to a finished card that was read back, or to what stands in the way of one."""

from dataclasses import dataclass

from builder.errors import BuilderError
from builder.publishing.cards.pdf import Layout, open_press
from builder.publishing.cards.proved import write_proved
from builder.publishing.cards.typeface import find_lacking_signs
from builder.publishing.class_card.breaks import NO_BREAKS, find_breaks
from builder.publishing.class_card.face import ClassFace
from builder.publishing.class_card.html import make_face, read_class_style, write_class_card
from builder.publishing.class_card.setting import (
    FLOOR_POINTS,
    MOST_PAGES,
    SETTINGS,
    ClassSetting,
)
from builder.publishing.class_card.words import (
    find_missing_marks,
    find_missing_words,
    list_cautions,
)
from builder.publishing.proof.read_back import join_readings, read_pdf
from builder.publishing.proof.safety.printed import find_unseen_words
from builder.publishing.views.class_view import ClassView
from builder.sums.paper import Paper

_MOST_TRIES = 5
"""Each try moves a block or says of one that it runs on."""


@dataclass(frozen=True, slots=True)
class PrintedCard:
    """A finished card."""

    pdf: bytes
    has_figures: bool
    """False where the class is too large for a card that shows bodies."""


def print_class_card(view: ClassView, sheet: Paper) -> PrintedCard:
    """Return the card of a class as PDF, the largest type that fits on two pages.

    BuilderError where it is too long at the smallest type, and where the finished file lacks
    anything that it must say.
    """
    _refuse_lacking_signs(view)
    setting, layout = _fit(view, sheet)
    face, pdf = make_face(view, setting), write_proved(layout, "the class card")
    _prove(face, pdf)
    return PrintedCard(pdf, has_figures=setting.figure_room is not None)


def lay_out_card(view: ClassView, setting: ClassSetting, sheet: Paper) -> Layout:
    """Lay a card out, again for as long as its page breaks have more to be said."""
    face, style = make_face(view, setting), read_class_style(sheet)
    breaks, layout = NO_BREAKS, open_press().lay_out_apart(write_class_card(face, setting), style)
    for _ in range(_MOST_TRIES):
        found = find_breaks(face, _find_pages(layout), breaks)
        if found == breaks or layout.page_count > MOST_PAGES:
            return layout
        breaks = found
        layout = open_press().lay_out_apart(write_class_card(face, setting, breaks), style)
    return layout


def _find_pages(layout: Layout) -> dict[str, int]:
    return {name: mark.page for name, mark in layout.marks.items()}


def _fit(view: ClassView, sheet: Paper) -> tuple[ClassSetting, Layout]:
    """Find the most roomy setting that fits, by halving them; the last one is tried last."""
    found: tuple[ClassSetting, Layout] | None = None
    first, end, pages = 0, len(SETTINGS), 0
    while first < end:
        middle = (first + end) // 2
        layout = lay_out_card(view, SETTINGS[middle], sheet)
        pages = layout.page_count
        if pages <= MOST_PAGES:
            found, end = (SETTINGS[middle], layout), middle
        else:
            first = middle + 1
    if found is None:
        raise _refuse_length(view, pages)
    return found


def _refuse_length(view: ClassView, pages: int) -> BuilderError:
    return BuilderError(
        f"the class card has {pages} pages at {FLOOR_POINTS:g} pt, its smallest type, and "
        f"{MOST_PAGES} are the most: {len(view.people)} people in {len(view.blocks)} blocks, with "
        f"{sum(len(own) for _, own in view.cautions)} cautions, are too much for one card",
        "plan fewer blocks (blocks: in the class file), or two class files with half of the "
        "people each, which gives two cards",
    )


def _prove(face: ClassFace, pdf: bytes) -> None:
    """Read a card back; stop where words are missing, too small or off the paper."""
    pages = read_pdf(pdf)
    faults = [
        *find_missing_words(face, join_readings(pages)),
        *find_missing_marks(face, tuple(page.text for page in pages)),
    ]
    if faults:
        more = f" and {len(faults) - 1} more" if len(faults) > 1 else ""
        raise BuilderError(
            f"the finished class card lacks {faults[0]}{more}", "report it as a fault of the tool"
        )
    _refuse_hidden(face, pdf, len(pages))
    if any(page.has_words_outside for page in pages):
        raise BuilderError("words of the class card left its page", "shorten names and titles")
    smallest = min(page.smallest_points for page in pages)
    if smallest < FLOOR_POINTS:
        raise BuilderError(
            f"the class card has type of {smallest:g} pt, under {FLOOR_POINTS:g} pt",
            "report it as a fault of the tool",
        )


def _refuse_hidden(face: ClassFace, pdf: bytes, count: int) -> None:
    """Stop where a caution stands on a card, and can't be seen where it must."""
    unseen = find_unseen_words(pdf, dict(list_cautions(face)))
    for page in range(count):
        own = {f"the caution on page {page + 1}": face.view.caution}
        unseen |= find_unseen_words(pdf, own, slice(page, page + 1))
    for name, lack in unseen.items():
        raise BuilderError(
            f"{name} can't be read on the finished class card: {lack}",
            "report it as a fault of the tool",
        )


def _refuse_lacking_signs(view: ClassView) -> None:
    """Stop where words would print as empty boxes."""
    turns = [turn for block in (*view.blocks, *view.spare) for turn in block.turns]
    lacking = find_lacking_signs(
        (
            *(name for _, name in view.people),
            *(view.name, view.note, view.studio, view.caution, *view.coaches),
            *(f"{turn.title} {turn.look_at}" for turn in turns),
            *(sentence for _, sentences in view.cautions for sentence in sentences),
        )
    )
    if lacking:
        raise BuilderError(
            f'the typeface has no "{"".join(lacking)}", which would print as empty boxes',
            "write these words in Latin, Greek or Cyrillic letters",
        )
