"""Words on finished PDFs, and every way to keep a reader from seeing them."""

import re
import shutil
import subprocess
from io import BytesIO
from pathlib import Path

import pikepdf
import pypdf
import pytest
from pikepdf import Array, Dictionary, Name

from builder.course.course import Course
from builder.publishing.cards.printing import print_card
from builder.publishing.cards.words import list_wanted_words
from builder.publishing.proof.finished.pdf_reading import PdfUnsoundError
from builder.publishing.proof.safety.in_pdf import Asked, sight_in_parts
from builder.publishing.proof.safety.sighting import Box, Lack
from builder.sums.paper import PAPERS, mm_to_points, points_to_mm
from tests.publishing.conftest import make_face
from tests.publishing.proof.safety.pdf_edits import (
    A6,
    NAME,
    NOTICE,
    Change,
    add_resource,
    change,
    cover_with_note,
    draw,
    insert,
    print_words,
    put_aside,
    put_on_layer,
    rectangle,
    sight,
    sight_in_pdf,
    veil,
)


@pytest.mark.parametrize("paper", PAPERS)
def test_every_word_of_a_sound_card_is_seen(small_course: Course, paper: str) -> None:
    face = make_face(small_course, "short-hold", paper)
    seen = sight_in_pdf(print_card(face).pdf, list_wanted_words(face))
    assert {name for name, found in seen.items() if found.lack} == set()
    assert seen[NAME].place
    assert seen[NAME].place.contrast == 21  # black on white: WCAG 2.2, "contrast ratio"
    assert seen[NAME].place.size_points >= PAPERS[paper].floor_points


def test_words_that_are_not_there_are_absent(card: bytes) -> None:
    missing = sight(card, "Nobody wrote this.")
    assert (missing.place, missing.lack) == (None, Lack.ABSENT)


@pytest.mark.parametrize("words", ["", "…", " - "])
def test_words_without_a_letter_are_absent(card: bytes, words: str) -> None:
    assert sight(card, words).lack is Lack.ABSENT


def invert(box: Box) -> Change:
    def edit(pdf: pikepdf.Pdf) -> None:
        insert(box, "1 g", "0 g")(pdf)
        draw(f"0 g {rectangle(box)} f", under=True)(pdf)

    return edit


def move(box: Box, pixels: float) -> Change:
    return insert(box, f"q 1 0 0 1 {pixels} 0 cm", "Q")


def stripe(box: Box) -> str:
    left, bottom, width, height = (float(side) for side in rectangle(box).split()[:4])
    rows = (f"{left} {bottom + at} {width} 0.7 re" for at in range(int(height)))
    return " ".join(rows) + " f"


SOUND = {
    "white under": lambda box: draw(f"1 g {rectangle(box)} f", under=True),
    "a light tint under": lambda box: draw(f"0.9 g {rectangle(box)} f", under=True),
    "a thin veil over": lambda box: veil(f"1 g {rectangle(box)} f", ca=0.1),
    "a note that is hidden": lambda box: cover_with_note(box, F=2),
    "a link over": lambda box: cover_with_note(box, has_look=False, Subtype=Name.Link),
    "on a layer that is on": lambda box: put_on_layer(box, is_on=True),
    "a drawing elsewhere": lambda _: draw("0 g 0 0 20 20 re f"),
    "dark ink of its own": lambda box: insert(box, "0.2 0 0.3 rg", "0 g"),
    "white on black": invert,
}


@pytest.mark.parametrize("name", SOUND)
def test_what_leaves_words_readable_is_no_lack(card: bytes, box: Box, name: str) -> None:
    assert sight(change(card, SOUND[name](box))).lack is None


UNPRINTED = Dictionary(Print=Dictionary(PrintState=Name.OFF))
SPOILED = {
    "white over": (Lack.COVERED, lambda box: draw(f"1 g {rectangle(box)} f")),
    "the text's own colour over": (Lack.COVERED, lambda box: draw(f"0 g {rectangle(box)} f")),
    "white over the first letter": (Lack.COVERED, lambda box: draw(f"1 g {rectangle(box, 0)} f")),
    "lines over": (Lack.COVERED, lambda box: draw(f"0.5 g {stripe(box)}")),
    "nearly opaque white over": (
        Lack.COVERED,
        lambda box: veil(f"1 g {rectangle(box)} f", ca=0.95),
    ),
    "white that multiplies nothing over": (
        Lack.COVERED,
        lambda box: veil(f"0 g {rectangle(box)} f", BM=Name.Multiply),
    ),
    "a note over": (Lack.COVERED, cover_with_note),
    "a note over, on the screen only": (Lack.COVERED, lambda box: cover_with_note(box, F=0)),
    "a note over, in print only": (Lack.COVERED, lambda box: cover_with_note(box, F=36)),
    "a note over that says not how it looks": (
        Lack.COVERED,
        lambda box: cover_with_note(box, has_look=False, Subtype=Name.FreeText),
    ),
    "a link over that is drawn": (
        Lack.COVERED,
        lambda box: cover_with_note(box, Subtype=Name.Link, F=36),
    ),
    "on a layer that is off": (Lack.HIDDEN, lambda box: put_on_layer(box, is_on=False)),
    "on a layer that is not printed": (
        Lack.HIDDEN,
        lambda box: put_on_layer(box, is_on=True, Usage=UNPRINTED),
    ),
    "a mode that draws nothing": (Lack.HIDDEN, lambda box: insert(box, "3 Tr", "0 Tr")),
    "a mode that only clips": (Lack.HIDDEN, lambda box: insert(box, "7 Tr", "0 Tr")),
    "clipped away": (Lack.HIDDEN, lambda box: insert(box, "q 0 0 1 1 re W n", "Q")),
    "black under": (Lack.PALE, lambda box: draw(f"0 g {rectangle(box)} f", under=True)),
    "dark grey under": (Lack.PALE, lambda box: draw(f"0.3 g {rectangle(box)} f", under=True)),
    "grey ink": (Lack.PALE, lambda box: insert(box, "0.6 g", "0 g")),
    "white ink": (Lack.PALE, lambda box: insert(box, "1 g", "0 g")),
    "squeezed letters": (Lack.SMALL, lambda box: insert(box, "50 Tz", "100 Tz")),
    "letters on each other": (Lack.ABSENT, lambda box: insert(box, "-5 Tc", "0 Tc")),
    "strokes that fill letters": (Lack.ABSENT, lambda box: insert(box, "2 w 2 Tr", "0 Tr 1 w")),
    "beyond the left edge": (Lack.OUTSIDE, lambda box: move(box, -150)),
    "half beyond the edge": (Lack.OUTSIDE, lambda box: move(box, 60)),
}


@pytest.mark.parametrize("name", SPOILED)
def test_words_that_a_reader_cannot_see_lack_something(card: bytes, box: Box, name: str) -> None:
    lack, edit = SPOILED[name]
    assert sight(change(card, edit(box))).lack is lack


@pytest.mark.parametrize(
    ("alpha", "lack"), [(0, Lack.HIDDEN), (0.2, Lack.PALE), (0.5, Lack.PALE), (0.8, None)]
)
def test_words_that_shine_through_count_by_what_is_seen(
    card: bytes, box: Box, alpha: float, lack: Lack | None
) -> None:
    def edit(pdf: pikepdf.Pdf) -> None:
        add_resource(pdf, "/ExtGState", "/Faint", Dictionary(ca=alpha, CA=alpha))
        insert(box, "q /Faint gs", "Q")(pdf)

    assert sight(change(card, edit)).lack is lack


def test_a_picture_over_words_covers_them(card: bytes, box: Box) -> None:
    left, bottom, width, height = rectangle(box).split()[:4]

    def edit(pdf: pikepdf.Pdf) -> None:
        kind = {"Type": Name.XObject, "Subtype": Name.Image, "ColorSpace": Name.DeviceRGB}
        size = {"Width": 8, "Height": 8, "BitsPerComponent": 8}
        photo = pdf.make_stream(bytes(range(0, 256, 4)) * 3, **kind, **size)
        add_resource(pdf, "/XObject", "/Photo", photo)
        draw(f"{width} 0 0 {height} {left} {bottom} cm /Photo Do")(pdf)

    assert sight(change(card, edit)).lack is Lack.COVERED


@pytest.mark.parametrize("place", ["/CropBox", "/MediaBox", "/TrimBox"])
def test_words_beyond_a_box_of_the_page_are_outside(card: bytes, box: Box, place: str) -> None:
    def edit(pdf: pikepdf.Pdf) -> None:
        pdf.pages[0].obj[place] = Array([0, 0, mm_to_points(box.left_mm + 20), A6[1]])

    assert sight(change(card, edit)).lack is Lack.OUTSIDE


def test_other_letters_over_words_cover_them() -> None:
    pdf = print_words(f"<p>{NOTICE}</p><p style='margin-top: -2em'>{'xw' * 30}</p>")
    assert sight(pdf).lack is Lack.COVERED


def test_wanted_words_over_wanted_words_cover_both() -> None:
    other = "Later in pregnancy: do this sitting, and ask before it."
    pdf = print_words(f"<p>{NOTICE}</p><p style='margin-top: -2.4em'>{other}</p>")
    seen = sight_in_pdf(pdf, {"one": NOTICE, "two": other})
    assert [found.lack for found in seen.values()] == [Lack.COVERED, Lack.COVERED]


def test_words_in_a_form_that_is_never_drawn_are_absent(card: bytes) -> None:
    def edit(pdf: pikepdf.Pdf) -> None:
        add_resource(pdf, "/XObject", "/Whole", put_aside(pdf))

    assert sight(change(card, edit)).lack is Lack.ABSENT


@pytest.mark.parametrize(
    ("operators", "lack"),
    [
        ("/Whole Do", None),
        ("0.8 0 0 0.8 10 10 cm /Whole Do", Lack.SMALL),
        ("1 0 0 1 60 0 cm /Whole Do", Lack.OUTSIDE),
        ("0 0 100 400 re W n /Whole Do", Lack.HIDDEN),
        ("/Whole Do 0.9 g 0 0 300 400 re f", Lack.COVERED),
        ("/None gs /Whole Do", Lack.HIDDEN),
    ],
)
def test_words_in_a_form_count_as_they_are_drawn(
    card: bytes, operators: str, lack: Lack | None
) -> None:
    def edit(pdf: pikepdf.Pdf) -> None:
        add_resource(pdf, "/XObject", "/Whole", put_aside(pdf))
        add_resource(pdf, "/ExtGState", "/None", Dictionary(ca=0))
        pdf.pages[0].obj.Contents = pdf.make_stream(operators.encode())

    assert sight(change(card, edit)).lack is lack


def test_words_in_a_note_are_absent(card: bytes) -> None:
    def edit(pdf: pikepdf.Pdf) -> None:
        page = pdf.pages[0]
        words = put_aside(pdf)
        note = Dictionary(Type=Name.Annot, Subtype=Name.Stamp, Rect=[0, 0, *A6], F=4)
        note.AP = Dictionary(N=words)
        page.obj.Annots = Array([pdf.make_indirect(note)])

    assert sight(change(card, edit)).lack is Lack.ABSENT


@pytest.mark.parametrize(
    ("ink", "paper", "published"),
    [
        # W3C, WCAG 2.2, "contrast ratio": from 1 to 21. The greys on either side of 4.5 are
        # those that accessibility teaching quotes: #767676 has 4.54 on white, #777777 4.48.
        ("#000000", "#ffffff", 21),
        ("#767676", "#ffffff", 4.54),
        ("#777777", "#ffffff", 4.48),
        ("#ffffff", "#000000", 21),
        ("#0000ff", "#ffffff", 8.59),
    ],
)
@pytest.mark.parametrize("size", [8, 9, 11])
def test_contrast_is_told_as_it_was_set(ink: str, paper: str, published: float, size: int) -> None:
    pdf = print_words(
        f"<p style='color: {ink}; background: {paper}; font-size: {size}pt'>{NOTICE}</p>"
    )
    seen = sight(pdf)
    assert seen.place
    assert seen.place.contrast == pytest.approx(published, abs=0.01)
    assert seen.lack is (Lack.PALE if published < 4.5 else None)


def test_one_pale_word_makes_the_whole_pale() -> None:
    words = NOTICE.replace("before", "<span style='color: #999'>before</span>")
    assert sight(print_words(f"<p>{words}</p>")).lack is Lack.PALE


@pytest.mark.parametrize("size", [6, 7.9])
def test_one_small_word_makes_the_whole_small(size: float) -> None:
    words = NOTICE.replace("before", f"<span style='font-size: {size}pt'>before</span>")
    seen = sight(print_words(f"<p>{words}</p>"))
    assert seen.lack is Lack.SMALL
    assert seen.place
    assert seen.place.size_points == pytest.approx(size, abs=0.01)


@pytest.mark.parametrize(
    ("size", "lack"),
    [
        ("105mm 148mm", None),
        ("148mm 210mm", Lack.SMALL),
        ("100mm 100mm", None),
        ("297mm 210mm", Lack.SMALL),
    ],
)
def test_what_is_small_depends_on_the_paper(size: str, lack: Lack | None) -> None:
    pdf = print_words(f"<p>{NOTICE}</p>", f"@page {{ size: {size} }} html {{ font-size: 8pt }}")
    assert sight(pdf).lack is lack


def test_a_page_as_large_as_a_field_is_judged_all_the_same(card: bytes) -> None:
    def edit(pdf: pikepdf.Pdf) -> None:
        pdf.pages[0].obj.MediaBox = Array([0, 0, 10**9, 10**9])
        del pdf.pages[0].obj["/TrimBox"]

    seen = sight(change(card, edit))
    assert seen.lack in (Lack.HIDDEN, Lack.ABSENT, Lack.SMALL, Lack.COVERED)


def test_a_page_whose_unit_is_smaller_has_smaller_words(card: bytes) -> None:
    def edit(pdf: pikepdf.Pdf) -> None:
        pdf.pages[0].obj.UserUnit = 0.5

    seen = sight(change(card, edit))
    assert seen.lack is Lack.SMALL
    assert seen.place
    assert seen.place.size_points == pytest.approx(4.5)


def test_the_best_of_several_places_is_told() -> None:
    pale = f"<p style='color: #999'>{NOTICE}</p>"
    seen = sight(print_words(f"{pale}<div style='break-before: page'>{NOTICE}</div>{pale}"))
    assert seen.lack is None
    assert seen.place
    assert seen.place.page == 2


def test_words_that_run_over_a_page_are_seen_on_both() -> None:
    broken = NOTICE.replace("your", "<span style='break-before: page; display: block'></span>your")
    seen = sight(print_words(f"<div>{broken}</div>"))
    assert seen.lack is None


def test_parts_of_a_file_are_looked_at_on_their_own() -> None:
    pdf = print_words(f"<p>{NOTICE}</p><p style='break-before: page'>Nothing.</p>")
    wanted = {NAME: NOTICE}
    parts = [Asked(slice(start, start + 1), wanted, {}) for start in (0, 1)]
    first, second = (answer.seen[NAME] for answer in sight_in_parts(pdf, parts))
    assert (first.lack, second.lack) == (None, Lack.ABSENT)


@pytest.mark.parametrize("turn", [90, 180, 270])
def test_a_turned_page_is_read_as_it_is_seen(card: bytes, box: Box, turn: int) -> None:
    def edit(pdf: pikepdf.Pdf) -> None:
        pdf.pages[0].obj.Rotate = turn

    seen = sight(change(card, edit))
    assert seen.lack is None
    assert seen.place
    assert seen.place.box
    sides = (box.width_mm, box.height_mm) if turn == 180 else (box.height_mm, box.width_mm)
    assert (seen.place.box.width_mm, seen.place.box.height_mm) == pytest.approx(sides, abs=0.11)


def test_letters_that_show_other_letters_than_they_say_are_absent() -> None:
    pdf = print_words("<p>High blood pressure: hold before you ask your clinician.</p>")
    said, shown = "ask your clinician before you hold.", "hold before you ask your clinician."

    def edit(pdf: pikepdf.Pdf) -> None:
        add_resource(pdf, "/Properties", "/Said", Dictionary(ActualText=NOTICE))
        page = pdf.pages[0]
        page.contents_add(b"/Span /Said BDC", prepend=True)
        page.contents_add(b"EMC")

    assert len(said) == len(shown)
    assert sight(change(pdf, edit)).lack is not None


def test_a_map_of_letters_that_lies_does_not_deceive() -> None:
    words, lie = "Never hold", "Always let"

    def edit(pdf: pikepdf.Pdf) -> None:
        for font in pdf.pages[0].obj.Resources.Font.values():
            table = font.ToUnicode.read_bytes()
            for true, told in zip(words, lie, strict=True):
                table = table.replace(f"<{ord(true):04x}>".encode(), f"<#{ord(told):04x}>".encode())
            font.ToUnicode.write(table.replace(b"#", b""))

    pdf = change(print_words(f"<p>{words}</p>"), edit)
    assert sight(pdf, lie).lack is Lack.ABSENT


@pytest.mark.parametrize("content", [b"", b"no PDF", b"%PDF-1.7\n%%EOF"])
def test_a_file_that_is_no_pdf_is_unsound(content: bytes) -> None:
    with pytest.raises(PdfUnsoundError):
        sight_in_pdf(content, {NAME: NOTICE})


def test_places_are_those_that_another_reader_tells(card: bytes, box: Box) -> None:
    spots: list[tuple[float, float]] = []

    def visit(text: str, cm: list[float], tm: list[float], *_: object) -> None:
        if "pressure: ask" in text:
            spots.append((cm[0] * tm[4] + cm[4], cm[3] * tm[5] + cm[5]))

    pypdf.PdfReader(BytesIO(card)).pages[0].extract_text(visitor_text=visit)
    ((_, baseline),) = spots
    top = mm_to_points(box.top_mm)
    assert top < A6[1] - baseline < top + mm_to_points(box.height_mm)


@pytest.mark.skipif(not shutil.which("pdftotext"), reason="needs poppler's pdftotext")
def test_places_are_within_a_millimetre_of_those_of_poppler(
    card: bytes, box: Box, tmp_path: Path
) -> None:
    (tmp_path / "card.pdf").write_bytes(card)
    subprocess.run(["pdftotext", "-bbox", "card.pdf", "card.html"], cwd=tmp_path, check=True)
    words = re.findall(
        r'xMin="([\d.]+)" yMin="([\d.]+)" xMax="([\d.]+)" yMax="([\d.]+)">([^<]*)<',
        (tmp_path / "card.html").read_text(encoding="utf-8"),
    )
    texts = [word[4] for word in words]
    start = texts.index("High")
    first, last = words[start], words[start + len(NOTICE.split()) - 1]
    assert last[4] == "hold."
    assert points_to_mm(float(first[0])) == pytest.approx(box.left_mm, abs=1)
    assert points_to_mm(float(last[2])) == pytest.approx(box.left_mm + box.width_mm, abs=1)
    # Poppler's boxes are those of lines, ours of letters: ours lie inside.
    assert points_to_mm(float(first[1])) - 0.5 <= box.top_mm
    assert box.top_mm + box.height_mm <= points_to_mm(float(first[3])) + 0.5


@pytest.mark.parametrize(
    ("html", "lack"),
    [
        (f"<p><s>{NOTICE}</s></p>", Lack.COVERED),
        (f"<p>{NOTICE.replace('ask', '<s>ask</s>')}</p>", Lack.COVERED),
        (f"<p><u>{NOTICE}</u></p>", None),
        (f"<p style='border: 1pt solid; line-height: 1'>{NOTICE}</p>", None),
        (f"<p style='opacity: 0.5'>{NOTICE}</p>", Lack.PALE),
        (f"<p style='background: linear-gradient(90deg, #fff, #000)'>{NOTICE}</p>", Lack.PALE),
        (f"<p style='width: 2cm; hyphens: auto' lang='en'>{NOTICE}</p>", None),
        (f"<p style='width: 6cm; text-align: justify'>{NOTICE}</p>", None),
        (f"<p style='letter-spacing: -2pt'>{NOTICE}</p>", Lack.COVERED),
        (f"<p style='transform: scaleX(-1)'>{NOTICE}</p>", Lack.ABSENT),
        (f"<p style='margin: 5cm 0; transform: rotate(90deg)'>{NOTICE}</p>", None),
        (f"<p style='font-variant: small-caps'>{NOTICE}</p>", Lack.ABSENT),
        (f"<p style='font-family: serif'>{NOTICE}</p>", Lack.ABSENT),
    ],
)
def test_what_a_style_does_to_words_counts_as_it_looks(html: str, lack: Lack | None) -> None:
    assert sight(print_words(html)).lack is lack


@pytest.mark.parametrize("words", ["office soft effort", "Ärzte: ﬁt, größer", "Άσκηση για όλους"])
def test_letters_that_are_drawn_together_and_of_other_languages_are_known(words: str) -> None:
    assert sight(print_words(f"<p>{words}</p>"), words).lack is None


@pytest.mark.parametrize(
    "moved",
    [
        "<p>Hold <span style='margin-left: 2cm'>before you ask.</span></p>",
        "<p><span style='float: right'>Hold before</span> you ask.</p>",
        "<p><br><br>Hold before <span style='position: relative; top: -1cm'>you ask.</span></p>",
    ],
)
def test_words_that_are_read_in_another_order_are_absent(moved: str) -> None:
    assert sight(print_words("<p>Hold before you ask.</p>"), "Hold before you ask.").lack is None
    assert sight(print_words(moved), "Hold before you ask.").lack is Lack.ABSENT
