"""Packs: contents, page numbers and bookmarks that agree with each other."""

from dataclasses import dataclass, replace
from io import BytesIO

import pikepdf
import pypdf
import pypdfium2
import pytest

from builder.course.audience import Audience
from builder.course.course import Course
from builder.publishing.cards.face import CardFace, face_cards
from builder.publishing.cards.pack_pages import print_contents, print_folios
from builder.publishing.cards.pack_parts import FOLIOS_AT_ONCE, PackParts
from builder.publishing.cards.pack_plan import WHOLE_COURSE, Pack, plan_packs
from builder.publishing.cards.packs import bind_proved as bind_pack
from builder.publishing.cards.press import print_batch
from builder.publishing.cards.words import list_wanted_words
from builder.publishing.proof.read_back import find_missing_texts
from builder.sums.paper import PAPERS


@dataclass(frozen=True)
class Printed:
    """The cards and packs of the small course."""

    faces: tuple[CardFace, ...]
    cards: dict[str, bytes]
    packs: dict[str, Pack]

    def bind(self, name: str) -> bytes:
        pack = self.packs[name]
        return print_pack(pack, tuple(self.cards[lesson] for lesson in pack.list_lessons()))


def print_pack(pack: Pack, cards: tuple[bytes, ...]) -> bytes:
    """Print and bind a pack of client cards, which have one page each."""
    leaves = [1] * len(cards)
    contents = print_contents(pack, leaves)
    firsts = range(1, contents.page_count + len(cards) + 1, FOLIOS_AT_ONCE)
    folios = tuple(print_folios(pack.paper, pack.language, first) for first in firsts)
    numbered = pack.number_pages(leaves, contents.page_count)
    return bind_pack(PackParts(numbered, contents.pdf, folios, cards))


@pytest.fixture(scope="module")
def printed(small_course: Course) -> Printed:
    faces = face_cards(small_course, small_course.lessons, Audience.CLIENT, [PAPERS["a6"]])["a6"]
    packs = plan_packs(small_course, small_course.lessons, PAPERS["a6"])
    cards = {
        face.lesson.id: record.pdf for face, record in zip(faces, print_batch(faces), strict=True)
    }
    return Printed(faces, cards, {pack.name: pack for pack in packs})


def test_there_is_a_pack_for_each_strand_and_one_for_all(
    printed: Printed,
) -> None:
    assert list(printed.packs) == ["breath", "count", WHOLE_COURSE]


def test_every_card_of_the_course_is_in_the_whole_pack(
    printed: Printed,
) -> None:
    pages = pypdf.PdfReader(BytesIO(printed.bind(WHOLE_COURSE))).pages
    faces = printed.faces
    assert len(pages) == 1 + len(faces)
    for face, page in zip(faces, pages[1:], strict=True):
        assert find_missing_texts(page.extract_text(), list_wanted_words(face)) == ()


def test_contents_bookmarks_and_page_numbers_agree(printed: Printed) -> None:
    reader = pypdf.PdfReader(BytesIO(printed.bind(WHOLE_COURSE)))
    contents = reader.pages[0].extract_text()
    strands = [item.title for item in reader.outline if not isinstance(item, list)]
    assert strands == ["Breath", "Count"]
    bookmarks = [item for group in reader.outline if isinstance(group, list) for item in group]
    assert [item.title for item in bookmarks] == [f.lesson.title for f in printed.faces]
    for number, item in enumerate(bookmarks, 2):
        assert reader.get_destination_page_number(item) == number - 1
        page = reader.pages[number - 1].extract_text()
        assert item.title in page
        assert page.rstrip().split("\n")[-1].endswith(str(number))
        assert find_missing_texts(contents, {"line": f"{item.title}{number}"}) == ()


def test_contents_lead_to_their_pages(printed: Printed) -> None:
    with pikepdf.open(BytesIO(printed.bind("count"))) as pdf:
        links = [note for note in pdf.pages[0].Annots if note.Subtype == "/Link"]
        assert len(links) == 3
        assert all(str(link.Contents) for link in links)  # ISO 14289-1, 7.18.5
        assert bool(pdf.Root.MarkInfo.Marked) is True
        assert str(pdf.Root.Lang) == "en-GB"


def test_a_pack_bound_again_is_the_same_bytes(printed: Printed) -> None:
    assert printed.bind("count") == printed.bind("count")


def test_every_page_of_a_pack_keeps_the_tags_of_its_card(printed: Printed) -> None:
    # ISO 32000-1, 14.7.4.4: a page's StructParents is its key in the table of its tagged parts,
    # and each of these belongs to that page.
    with pikepdf.open(BytesIO(printed.bind(WHOLE_COURSE))) as pdf:
        numbers = pdf.Root.StructTreeRoot.ParentTree.Nums
        parents = {int(numbers[at]): numbers[at + 1] for at in range(0, len(numbers), 2)}
        assert list(parents) == sorted(set(parents))
        for page, card in zip(pdf.pages[1:], printed.cards.values(), strict=True):
            parts = parents[int(page.obj.StructParents)]
            assert {part.Pg.objgen for part in parts} == {page.obj.objgen}
            with pikepdf.open(BytesIO(card)) as single:
                assert len(parts) == len(single.Root.StructTreeRoot.ParentTree.Nums[1])
        body = pdf.Root.StructTreeRoot.K[0]
        assert all(body == part.P for part in body.K)


def test_a_page_of_a_pack_looks_like_its_card_but_for_the_number(printed: Printed) -> None:
    whole = pypdfium2.PdfDocument(printed.bind(WHOLE_COURSE))
    for number, card in enumerate(printed.cards.values(), 1):
        single = pypdfium2.PdfDocument(card)[0].render(grayscale=True).to_numpy()
        bound = whole[number].render(grayscale=True).to_numpy()
        # The number stands in the last line, in the room that the small print leaves to it.
        rows = (single != bound).any(axis=1).nonzero()[0]
        assert len(rows) > 0
        assert rows.min() > 0.94 * single.shape[0]


def test_a_long_pack_goes_on_counting_where_a_sheet_of_numbers_ends(printed: Printed) -> None:
    pack = printed.packs[WHOLE_COURSE]
    (chapter, *_) = pack.chapters
    times = -(-(FOLIOS_AT_ONCE + 2) // len(chapter.entries))
    entries = tuple(
        replace(entry, id=f"{entry.id}-{turn}")
        for turn in range(times)
        for entry in chapter.entries
    )
    long = replace(pack, chapters=(replace(chapter, entries=entries),))
    cards = tuple(printed.cards[e.id] for _ in range(times) for e in chapter.entries)
    bound = print_pack(long, cards)
    with pypdfium2.PdfDocument(bound) as pdf:
        last = [pdf[page].get_textpage().get_text_bounded() for page in range(len(pdf))]
    assert len(last) > FOLIOS_AT_ONCE
    for number, text in enumerate(last, 1):
        assert str(number) in text.split()
