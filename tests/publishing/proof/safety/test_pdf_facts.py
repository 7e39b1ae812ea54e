"""What PDFs say of their pages."""

import pikepdf
import pytest
from pikepdf import Array, Dictionary, Name

from builder.course.course import Course
from builder.publishing.cards.printing import print_card
from builder.publishing.cards.record import CardRecord
from builder.publishing.cards.sheets import print_sheets
from builder.publishing.proof.safety.pdf_facts import read_facts
from builder.sums.paper import PAPERS
from tests.publishing.conftest import make_face
from tests.publishing.proof.safety.pdf_edits import change, cover_with_note, find_box, sight


@pytest.mark.parametrize("paper", PAPERS)
def test_a_cards_floor_is_its_papers(small_course: Course, paper: str) -> None:
    (facts,) = read_facts(print_card(make_face(small_course, "short-hold", paper)).pdf)
    assert facts.floor_points == PAPERS[paper].floor_points
    assert not facts.has_variants


def test_a_sheet_to_cut_has_the_floor_of_its_cards(hold_card: CardRecord) -> None:
    sheet = print_sheets([hold_card.pdf], PAPERS["a6"], "Short hold", "en-GB")
    assert read_facts(sheet)[0].floor_points == PAPERS["a6"].floor_points
    assert sight(sheet).lack is None


def test_links_are_no_variants_and_other_notes_are(hold_card: CardRecord) -> None:
    def link(pdf: pikepdf.Pdf) -> None:
        pdf.pages[0].obj.Annots = Array([Dictionary(Subtype=Name.Link)])

    note = cover_with_note(find_box(hold_card.pdf))
    found = [read_facts(change(hold_card.pdf, edit))[0].has_variants for edit in (link, note)]
    assert found == [False, True]
