"""Links of finished PDFs, and where the codes of cards lead."""

import io

import pikepdf
import pytest

from tests.publishing.proof.finished.conftest import ADDRESS, CARD, LESSON, Find, write_pdf


@pytest.mark.parametrize(
    ("link", "rule"),
    [
        (f"{ADDRESS}gone/", "L101"),
        (f"{ADDRESS}{LESSON}#gone", "L102"),
        (f"http://studio.example/course/{LESSON}", "L104"),
        ("../index.html", "L101"),
        ("javascript:x", "L101"),
        ("file:///x", "L101"),
    ],
)
def test_a_dead_link_of_a_pdf_is_found(find: Find, link: str, rule: str) -> None:
    assert find({CARD: write_pdf((link,))}) == [(rule, CARD)]


@pytest.mark.parametrize(
    "link",
    [
        "https://elsewhere.example/",
        f"{ADDRESS}{LESSON}#card=7K3QX",
        f"{ADDRESS}{LESSON}#steps",
        ADDRESS.rstrip("/"),
        "tel:+100",
    ],
)
def test_links_that_lead_somewhere_are_no_fault(find: Find, link: str) -> None:
    assert find({CARD: write_pdf((link,))}) == []


def test_a_spot_that_a_pdf_lacks_is_found(find: Find) -> None:
    assert find({CARD: write_pdf(spots=("end", "gone"))}) == [("L102", CARD)]


@pytest.mark.parametrize("how", ["annotation", "action", "outline", "name"])
def test_a_link_to_a_page_that_was_taken_out_is_found(find: Find, how: str) -> None:
    pdf = pikepdf.open(io.BytesIO(write_pdf()))
    pdf.add_blank_page()
    spot = pikepdf.Array([pdf.pages[1].obj, pikepdf.Name.Fit])
    action = pikepdf.Dictionary(S=pikepdf.Name.GoTo, D=spot)
    if how == "outline":
        entry = pdf.make_indirect(pikepdf.Dictionary(Title="x", Dest=spot))
        pdf.Root.Outlines = pdf.make_indirect(pikepdf.Dictionary(First=entry, Last=entry, Count=1))
    else:
        if how == "name":
            pikepdf.NameTree(pdf.Root.Names.Dests)["late"] = spot
        target = {
            "annotation": {"Dest": spot},
            "action": {"A": action},
            "name": {"Dest": pikepdf.String("late")},
        }[how]
        note = pikepdf.Dictionary(Subtype=pikepdf.Name.Link, **target)
        pdf.pages[0].obj.Annots.append(note)
    del pdf.pages[1]
    made = io.BytesIO()
    pdf.save(made)
    assert find({CARD: made.getvalue()}) == [("L102", CARD)]


def test_an_outline_that_runs_in_a_circle_comes_to_an_end(find: Find) -> None:
    pdf = pikepdf.open(io.BytesIO(write_pdf()))
    entry = pdf.make_indirect(pikepdf.Dictionary(Title="x", Dest=pikepdf.String("gone")))
    entry.Next = entry
    pdf.Root.Outlines = pdf.make_indirect(pikepdf.Dictionary(First=entry, Last=entry, Count=1))
    made = io.BytesIO()
    pdf.save(made)
    assert find({CARD: made.getvalue()}) == [("L102", CARD)]


def test_a_pdf_that_opens_a_file_on_the_readers_disk_is_found(find: Find) -> None:
    pdf = pikepdf.open(io.BytesIO(write_pdf()))
    action = pikepdf.Dictionary(S=pikepdf.Name.Launch, F=pikepdf.String("x.exe"))
    pdf.pages[0].obj.Annots.append(pikepdf.Dictionary(Subtype=pikepdf.Name.Link, A=action))
    made = io.BytesIO()
    pdf.save(made)
    assert find({CARD: made.getvalue()}) == [("L101", CARD)]


@pytest.mark.parametrize(
    ("code", "rule"),
    [
        (f"{ADDRESS}gone/", "L101"),
        (f"https://old.example/{LESSON}", "L104"),
        (f"http://studio.example/course/{LESSON}", "L104"),
    ],
)
def test_a_code_that_leads_elsewhere_is_found(find: Find, code: str, rule: str) -> None:
    assert find({CARD: write_pdf(code=code)}) == [(rule, CARD)]


def test_pictures_of_other_pdfs_may_speak_of_any_address(find: Find) -> None:
    assert find({"downloads/plan.pdf": write_pdf(code="https://old.example/")}) == []


def test_a_pdf_that_was_cut_short_is_found(find: Find) -> None:
    assert find({CARD: write_pdf()[:40]}) == [("L106", CARD)]


@pytest.mark.parametrize("notes", [pikepdf.Array([1, "x"]), pikepdf.String("x")])
def test_notes_that_are_none_point_to_nothing(find: Find, notes: pikepdf.Object) -> None:
    pdf = pikepdf.open(io.BytesIO(write_pdf()))
    pdf.pages[0].obj.Annots = notes
    made = io.BytesIO()
    pdf.save(made)
    assert find({CARD: made.getvalue()}) == []


def test_a_pdf_with_a_name_that_is_no_text_is_found(find: Find) -> None:
    damaged = write_pdf((ADDRESS,)).replace(b"/S /URI", b"/S /U\xcfI")
    assert find({CARD: damaged}) == [("L106", CARD)]
