"""Finished PDFs taken apart: each edit is told, by the rule that names it.

The clauses are of ISO 14289-1:2014 (PDF/UA-1), from memory where no other test compares them.
"""

from dataclasses import replace

import pikepdf
import pytest
from pikepdf import Array, Dictionary, Name, String

from builder.publishing.cards.record import CardRecord
from builder.publishing.proof.structure.check import Wanted, find_structure_faults
from tests.publishing.proof.structure.conftest import Edit, Taken, find_parts, rewrite


def drop(pdf: pikepdf.Pdf, name: str) -> None:
    del pdf.Root[name]


def set_metadata(pdf: pikepdf.Pdf, name: str, value: str) -> None:
    with pdf.open_metadata() as metadata:
        metadata[name] = value


def swap_kids(pdf: pikepdf.Pdf) -> None:
    body = pdf.Root.StructTreeRoot.K[0].K
    body[0], body[1] = body[1], body[0]


def swap_steps(pdf: pikepdf.Pdf) -> None:
    (steps,) = find_parts(pdf, "L")
    steps.K[0], steps.K[1] = steps.K[1], steps.K[0]


def lose_map(pdf: pikepdf.Pdf) -> None:
    for font in pdf.pages[0].Resources.Font.values():
        del font.ToUnicode


def lose_file(pdf: pikepdf.Pdf) -> None:
    for font in pdf.pages[0].Resources.Font.values():
        descriptor = font.DescendantFonts[0].FontDescriptor
        for name in ("/FontFile2", "/FontFile3"):
            if name in descriptor:
                del descriptor[name]


def lose_one_letter(pdf: pikepdf.Pdf) -> None:
    for font in pdf.pages[0].Resources.Font.values():
        lines = font.ToUnicode.read_bytes().split(b"\n")
        kept = [line for line in lines if not line.endswith(b"<0042>")]
        font.ToUnicode = pdf.make_stream(b"\n".join(kept))


def set_part(role: str, name: str, value: object = None) -> Edit:
    """Return an edit of the first part of a role; None takes the value out."""

    def edit(pdf: pikepdf.Pdf) -> None:
        part = find_parts(pdf, role)[0]
        if value is None:
            del part[name]
        else:
            part[name] = value

    return edit


def set_link(name: str, value: object = None) -> Edit:
    def edit(pdf: pikepdf.Pdf) -> None:
        note = pdf.pages[0].Annots[0]
        if value is None:
            del note[name]
        else:
            note[name] = value

    return edit


def lose_headers(pdf: pikepdf.Pdf) -> None:
    for cell in find_parts(pdf, "TD"):
        del cell.A.Headers


def lock(pdf: pikepdf.Pdf) -> None:
    pdf.Root.AcroForm = Dictionary(XFA=Array([]))


def run_script(pdf: pikepdf.Pdf) -> None:
    pdf.Root.OpenAction = Dictionary(S=Name.JavaScript, JS=String("app.alert(1)"))


def add_bookmark(pdf: pikepdf.Pdf) -> None:
    with pdf.open_outline() as outline:
        outline.root.append(pikepdf.OutlineItem("Nowhere", action=Dictionary(S=Name.URI)))


def add_label(pdf: pikepdf.Pdf) -> None:
    pdf.Root.PageLabels = Dictionary(Nums=Array([7, Dictionary(S=Name.D)]))


def empty_paragraph(pdf: pikepdf.Pdf) -> None:
    body = pdf.Root.StructTreeRoot.K[0]
    body.K.append(pdf.make_indirect(Dictionary(S=Name.P, P=body, K=Array([]))))


EDITS: dict[str, tuple[Edit, str]] = {
    "no mark": (lambda pdf: drop(pdf, "/MarkInfo"), "A101 it doesn't say that its text is marked"),
    "suspects": (
        lambda pdf: pdf.Root.MarkInfo.__setitem__("/Suspects", True),
        "A101 it says that its marks may be wrong",
    ),
    "no shown title": (lambda pdf: drop(pdf, "/ViewerPreferences"), "A101 it would be shown under"),
    "no metadata": (lambda pdf: drop(pdf, "/Metadata"), "A101 it has no metadata"),
    "other standard": (
        lambda pdf: set_metadata(pdf, "pdfuaid:part", "3"),
        "A101 its metadata doesn't name PDF/UA-1",
    ),
    "other title": (
        lambda pdf: set_metadata(pdf, "dc:title", "Else"),
        'A101 its title is "Else", and "Try" was asked for',
    ),
    "no tab order": (lambda pdf: pdf.pages[0].obj.__delitem__("/Tabs"), "A101 the Tab key"),
    "no language": (lambda pdf: drop(pdf, "/Lang"), "A102 it doesn't say its language"),
    "other language": (
        lambda pdf: pdf.Root.__setitem__("/Lang", String("es")),
        'A102 its language is "es"',
    ),
    "odd language": (set_part("P", "/Lang", String("?")), 'A102 a part has "?" for its language'),
    "foreign part": (set_part("P", "/Lang", String("es")), "would be read as es"),
    "no tree": (lambda pdf: drop(pdf, "/StructTreeRoot"), "A103 it has no tags"),
    "unmarked text": (
        lambda pdf: rewrite(pdf, b"BDC", b"BDC EMC /Q BMC"),
        'A103 "Try" on page 1 has no mark',
    ),
    "unmarked line": (
        lambda pdf: rewrite(pdf, b"/Span", b"0 0 9 9 re f /Span"),
        "A103 a drawing on page 1 has no mark",
    ),
    "text as none": (
        lambda pdf: rewrite(pdf, b"/Span", b"/Artifact BMC EMC /Artifact BMC /Span"),
        "A103 text stands within what is marked as none",
    ),
    "open mark": (
        lambda pdf: rewrite(pdf, b"/Span", b"/X BMC /Span"),
        "A103 a mark on page 1 doesn't close",
    ),
    "lost place": (
        lambda pdf: find_parts(pdf, "P")[0].__setitem__("/K", Array([])),
        'A103 "Breathe in." has no place in the tree of tags',
    ),
    "lost parent": (
        lambda pdf: pdf.Root.StructTreeRoot.ParentTree.Nums[1].__setitem__(0, None),
        "A103 mark 0 leads back to another part",
    ),
    "own role": (set_part("P", "/S", Name.Chapter), 'A104 "Chapter" is no role'),
    "swapped parts": (swap_kids, 'A105 it reads "breatheintry'),
    "swapped steps": (swap_steps, 'A105 it reads "twoone'),
    "silent picture": (set_part("Figure", "/Alt"), "A106 a picture has no words"),
    "blank picture": (set_part("Figure", "/Alt", String(" ")), "A106 a picture has no words"),
    "deep heading": (set_part("H2", "/S", Name.H3), 'A107 a heading of level 3, "steps"'),
    "no first heading": (set_part("H1", "/S", Name.P), "A107 0 headings are of the first level"),
    "second title": (set_part("H2", "/S", Name.H1), "A107 2 headings are of the first level"),
    "stray item": (set_part("L", "/S", Name.Div), "A108 a part of the role LI stands in Div"),
    "no label": (
        lambda pdf: find_parts(pdf, "LI")[1].K.__delitem__(0),
        "A108 an item of a list has lost its number or dot",
    ),
    "no body": (set_part("LBody", "/S", Name.Lbl), "A108 an item of a list isn't whole"),
    "no headers": (lose_headers, 'A109 the cell "monday" names no header'),
    "lost header": (set_part("TH", "/ID", String("else")), "names a header that is not there"),
    "stray cell": (set_part("TR", "/S", Name.Div), "A109 a part of the role"),
    "silent link": (set_link("/Contents"), "A110 a link on page 1 has no words"),
    "stray link": (set_link("/StructParent"), "A110 a link on page 1 doesn't lead back"),
    "link as text": (set_part("Link", "/S", Name.Span), "A110 a link on page 1 has the role Span"),
    "no letters": (lose_map, "doesn't say which letters"),
    "one letter less": (lose_one_letter, "doesn't say which letters 1 signs are"),
    "no font": (lose_file, "is not in the file"),
    "lost bookmark": (add_bookmark, "A112 an entry of its outline leads nowhere"),
    "lost label": (add_label, "A112 it has labels for pages that aren't there"),
    "empty part": (empty_paragraph, "A113 a part of the role P has nothing in it"),
    "dynamic form": (lock, "A114 it has a form of the kind"),
    "script": (run_script, "A114 it runs something when it is opened"),
}


def test_an_untouched_pdf_has_no_fault(taken: Taken) -> None:
    assert taken.find() == []


@pytest.mark.parametrize("name", EDITS)
def test_each_edit_is_told(taken: Taken, name: str) -> None:
    edit, told = EDITS[name]
    assert told in "\n".join(taken.find(edit))


def test_a_pdf_that_is_locked_or_none_is_told(taken: Taken) -> None:
    wanted = Wanted(taken.source)
    (fault,) = find_structure_faults(b"%PDF-1.7 nothing", wanted)
    assert fault.rule.id == "A114"


def test_a_finished_card_has_no_fault(hold_card: CardRecord, coach_card: CardRecord) -> None:
    assert hold_card.faults == coach_card.faults == ()


def test_a_card_with_a_fault_is_not_sound(hold_card: CardRecord, taken: Taken) -> None:
    faults = find_structure_faults(hold_card.pdf, Wanted(taken.source))
    assert {fault.rule.id for fault in faults} == {"A101", "A105"}
    record = replace(hold_card, faults=faults)
    assert not record.is_sound(8)
    assert CardRecord.from_bytes(record.to_bytes()) == record
