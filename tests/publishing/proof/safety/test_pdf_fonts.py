"""Fonts of finished PDFs that aren't ours, or aren't in the file."""

import pikepdf
import pytest
from pikepdf import Array, Dictionary, Name

from builder.publishing.cards.record import CardRecord
from builder.publishing.proof.finished.pdf_reading import PdfUnsoundError
from builder.publishing.proof.safety.pdf_fonts import find_foreign_fonts
from tests.publishing.proof.safety.pdf_edits import add_resource, change, put_aside

HELVETICA = Dictionary(Type=Name.Font, Subtype=Name.Type1, BaseFont=Name.Helvetica)


def test_a_finished_card_has_our_fonts_only(hold_card: CardRecord, coach_card: CardRecord) -> None:
    assert find_foreign_fonts(hold_card.pdf) == ()
    assert find_foreign_fonts(coach_card.pdf) == ()


@pytest.mark.parametrize("index", range(3))
def test_any_font_that_is_not_in_the_file_is_named(hold_card: CardRecord, index: int) -> None:
    def edit(pdf: pikepdf.Pdf) -> None:
        font = list(pdf.pages[0].obj.Resources.Font.values())[index]
        del font.DescendantFonts[0].FontDescriptor["/FontFile2"]

    (name,) = find_foreign_fonts(change(hold_card.pdf, edit))
    assert "+Source-Sans-3" in name


def test_any_font_of_another_family_is_named(hold_card: CardRecord) -> None:
    def edit(pdf: pikepdf.Pdf) -> None:
        for font in pdf.pages[0].obj.Resources.Font.values():
            font.BaseFont = Name("/ABCDEF+Source-Sans-30")

    assert find_foreign_fonts(change(hold_card.pdf, edit)) == ("ABCDEF+Source-Sans-30",)


def test_fonts_of_forms_and_notes_count_too(hold_card: CardRecord) -> None:
    def in_form(pdf: pikepdf.Pdf) -> None:
        whole = put_aside(pdf)
        whole.Resources.Font["/F"] = HELVETICA
        add_resource(pdf, "/XObject", "/Whole", whole)

    def in_note(pdf: pikepdf.Pdf) -> None:
        resources = Dictionary(Font=Dictionary(F=HELVETICA))
        form = pdf.make_stream(b"", Subtype=Name.Form, Resources=resources)
        note = Dictionary(Subtype=Name.Stamp, AP=Dictionary(N=form))
        pdf.pages[0].obj.Annots = Array([note])

    for edit in (in_form, in_note):
        assert find_foreign_fonts(change(hold_card.pdf, edit)) == ("Helvetica",)


def test_a_font_without_a_name_is_told(hold_card: CardRecord) -> None:
    def edit(pdf: pikepdf.Pdf) -> None:
        add_resource(pdf, "/Font", "/F", Dictionary(Type=Name.Font, Subtype=Name.Type3))

    assert find_foreign_fonts(change(hold_card.pdf, edit)) == ("a font without a name",)


def test_forms_that_hold_each_other_come_to_an_end(hold_card: CardRecord) -> None:
    def edit(pdf: pikepdf.Pdf) -> None:
        whole = put_aside(pdf)
        add_resource(pdf, "/XObject", "/Whole", whole)
        whole.Resources.XObject = Dictionary(Whole=pdf.pages[0].obj.Resources.XObject.Whole)

    assert find_foreign_fonts(change(hold_card.pdf, edit)) == ()


def test_a_file_that_is_no_pdf_is_unsound() -> None:
    with pytest.raises(PdfUnsoundError):
        find_foreign_fonts(b"no PDF")
