"""Packs: contents, page numbers and bookmarks that agree with each other."""

from io import BytesIO

import pikepdf
import pypdf
import pytest

from builder.course.audience import Audience
from builder.course.course import Course
from builder.publishing.cards.batch import Batch
from builder.publishing.cards.face import face_cards
from builder.publishing.cards.pack_plan import WHOLE_COURSE, plan_packs
from builder.publishing.cards.press import PrintedBatch, print_batch
from builder.publishing.cards.words import list_wanted_words
from builder.publishing.proof.read_back import find_missing_texts
from builder.sums.paper import PAPERS


@pytest.fixture(scope="module")
def printed(small_course: Course) -> tuple[Batch, PrintedBatch]:
    faces = face_cards(small_course, small_course.lessons, Audience.CLIENT, [PAPERS["a6"]])["a6"]
    packs = plan_packs(small_course, small_course.lessons, PAPERS["a6"])
    batch = Batch(faces, (None,) * len(faces), packs)
    return batch, print_batch(batch)


def read_pack(printed: tuple[Batch, PrintedBatch], name: str) -> bytes:
    batch, made = printed
    return dict(zip((pack.name for pack in batch.packs), made.packs, strict=True))[name]


def test_there_is_a_pack_for_each_strand_and_one_for_all(
    printed: tuple[Batch, PrintedBatch],
) -> None:
    assert [pack.name for pack in printed[0].packs] == ["breath", "count", WHOLE_COURSE]


def test_every_card_of_the_course_is_in_the_whole_pack(
    printed: tuple[Batch, PrintedBatch],
) -> None:
    pages = pypdf.PdfReader(BytesIO(read_pack(printed, WHOLE_COURSE))).pages
    faces = printed[0].faces
    assert len(pages) == 1 + len(faces)
    for face, page in zip(faces, pages[1:], strict=True):
        assert find_missing_texts(page.extract_text(), list_wanted_words(face)) == ()


def test_contents_bookmarks_and_page_numbers_agree(printed: tuple[Batch, PrintedBatch]) -> None:
    reader = pypdf.PdfReader(BytesIO(read_pack(printed, WHOLE_COURSE)))
    contents = reader.pages[0].extract_text()
    strands = [item.title for item in reader.outline if not isinstance(item, list)]
    assert strands == ["Breath", "Count"]
    bookmarks = [item for group in reader.outline if isinstance(group, list) for item in group]
    assert [item.title for item in bookmarks] == [f.lesson.title for f in printed[0].faces]
    for number, item in enumerate(bookmarks, 2):
        assert reader.get_destination_page_number(item) == number - 1
        page = reader.pages[number - 1].extract_text()
        assert item.title in page
        assert page.rstrip().split("\n")[-1].endswith(str(number))
        assert find_missing_texts(contents, {"line": f"{item.title}{number}"}) == ()


def test_contents_lead_to_their_pages(printed: tuple[Batch, PrintedBatch]) -> None:
    with pikepdf.open(BytesIO(read_pack(printed, "count"))) as pdf:
        links = [note for note in pdf.pages[0].Annots if note.Subtype == "/Link"]
        assert len(links) == 3
        assert all(str(link.Contents) for link in links)  # ISO 14289-1, 7.18.5
        assert bool(pdf.Root.MarkInfo.Marked) is True
        assert str(pdf.Root.Lang) == "en-GB"


def test_a_pack_prints_the_same_bytes_from_known_sizes(
    small_course: Course, printed: tuple[Batch, PrintedBatch]
) -> None:
    batch, made = printed
    again = print_batch(Batch(batch.faces, made.records, batch.packs))
    assert again == made
