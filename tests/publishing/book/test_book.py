"""The book against EPUB 3.3 (W3C Recommendation, 2023) and what a learner needs of it."""

import re
import zipfile
from dataclasses import replace
from datetime import UTC, date, datetime
from io import BytesIO
from uuid import UUID

import pytest

from builder.course.course import Course
from builder.publishing.book.book import find_modified, make_book
from tests.publishing.book.conftest import NOON, paint_cover
from tests.publishing.book.opened import DC, EPUB, FOLDER, OPF, SVG, XHTML, OpenedBook, open_book


def list_spine(book: OpenedBook) -> list[str]:
    package = book.tree("package.opf")
    files = {item.get("id"): item.get("href", "") for item in package.iter(f"{OPF}item")}
    return [files[ref.get("idref")] for ref in package.iter(f"{OPF}itemref")]


def list_meta(book: OpenedBook, name: str) -> list[str | None]:
    metas = book.tree("package.opf").iter(f"{OPF}meta")
    return [meta.text for meta in metas if meta.get("property") == name]


def test_the_first_entry_says_unpacked_what_it_is(content: bytes) -> None:
    """OCF ZIP container: EPUB 3.3, section 4.2."""
    assert content[30:38] == b"mimetype"
    assert content[38:58] == b"application/epub+zip"
    with zipfile.ZipFile(BytesIO(content)) as book:
        first = book.infolist()[0]
        assert (first.compress_type, first.extra) == (zipfile.ZIP_STORED, b"")


def test_the_container_leads_to_the_package(book: OpenedBook) -> None:
    container = book.files["META-INF/container.xml"].decode()
    assert 'full-path="EPUB/package.opf"' in container
    assert FOLDER + "package.opf" in book.files


def test_the_manifest_names_every_file_once_and_no_other(book: OpenedBook) -> None:
    listed = [item.get("href", "") for item in book.tree("package.opf").iter(f"{OPF}item")]
    there = [name.removeprefix(FOLDER) for name in book.files if name.startswith(FOLDER)]
    assert sorted(listed) == sorted(name for name in there if name != "package.opf")


def test_chapters_with_drawings_say_so(book: OpenedBook) -> None:
    """EPUB 3.3, section 5.6.3 (properties): svg."""
    for item in book.tree("package.opf").iter(f"{OPF}item"):
        name = item.get("href", "")
        if name.endswith(".xhtml"):
            has_drawing = book.tree(name).find(f".//{SVG}svg") is not None
            assert ("svg" in (item.get("properties") or "").split()) == has_drawing, name


def test_the_metadata_that_must_be_there_is_there(book: OpenedBook, small_course: Course) -> None:
    """EPUB 3.3, section 5.5.3: identifier, title, language and the last modified date."""
    package = book.tree("package.opf")
    assert package.findtext(f".//{DC}title") == small_course.settings.title
    assert package.findtext(f".//{DC}language") == "en-GB"
    assert list_meta(book, "dcterms:modified") == ["2026-11-25T12:00:00Z"]
    identifier = package.findtext(f".//{DC}identifier") or ""
    assert UUID(identifier.removeprefix("urn:uuid:")).version == 5


def test_the_identifier_stays_through_editions_and_differs_by_language(
    book: OpenedBook, small_course: Course
) -> None:
    def identify(course: Course) -> str | None:
        made = open_book(make_book(course, paint_cover(), NOON))
        return made.tree("package.opf").findtext(f".//{DC}identifier")

    own = book.tree("package.opf").findtext(f".//{DC}identifier")
    later = replace(small_course, settings=replace(small_course.settings, summary="New words."))
    spanish = replace(small_course, settings=replace(small_course.settings, language="es"))
    assert identify(later) == own
    assert identify(spanish) != own


def test_readers_are_told_how_the_book_can_be_read(book: OpenedBook) -> None:
    """EPUB Accessibility 1.1 (W3C, 2023), section 2: what discovery metadata must be there."""
    assert set(list_meta(book, "schema:accessMode")) == {"textual", "visual"}
    assert "textual" in list_meta(book, "schema:accessModeSufficient")
    assert "alternativeText" in list_meta(book, "schema:accessibilityFeature")
    assert list_meta(book, "schema:accessibilityHazard") == ["none"]
    assert all(list_meta(book, "schema:accessibilitySummary"))


def test_safety_is_read_before_the_contents_and_any_lesson(
    book: OpenedBook, small_course: Course
) -> None:
    spine = list_spine(book)
    assert spine[:4] == ["cover.xhtml", "title.xhtml", "safety.xhtml", "contents.xhtml"]
    lessons = [name for name in spine if name.startswith("lesson-")]
    assert lessons == [f"lesson-{lesson.id}.xhtml" for lesson in small_course.lessons]
    for lesson in small_course.lessons:
        place = lessons.index(f"lesson-{lesson.id}.xhtml")
        before = [f"lesson-{name}.xhtml" for name in small_course.graph[lesson.id]]
        assert all(lessons.index(name) < place for name in before)


def test_every_chapter_is_in_the_contents_or_before_them(book: OpenedBook) -> None:
    contents = book.tree("contents.xhtml")
    toc = next(nav for nav in contents.iter(f"{XHTML}nav") if nav.get(f"{EPUB}type") == "toc")
    listed = [link.get("href") for link in toc.iter(f"{XHTML}a")]
    left_out = {"cover.xhtml", "title.xhtml", "contents.xhtml"}
    assert listed == [name for name in list_spine(book) if name not in left_out]
    types = {link.get(f"{EPUB}type") for link in contents.iter(f"{XHTML}a")}
    assert {"toc", "bodymatter", "preface"} <= types


def test_nothing_is_loaded_from_elsewhere_and_nothing_runs(book: OpenedBook) -> None:
    for name in book.chapters:
        text = book.files[FOLDER + name].decode()
        assert not re.search(r'<script|\ssrc="https?:|<(?:iframe|audio|video|object)\b', text)
    assert "http" not in book.files[f"{FOLDER}style.css"].decode()


def test_every_drawing_is_told_in_words(book: OpenedBook) -> None:
    drawings = [svg for name in book.chapters for svg in book.tree(name).iter(f"{SVG}svg")]
    assert drawings
    for svg in drawings:
        assert svg.get("role") == "img"
        assert svg.findtext(f"{SVG}title")
        assert svg.findtext(f"{SVG}desc")


def test_ids_stand_once_in_a_chapter(book: OpenedBook) -> None:
    for name in book.chapters:
        ids = [element.get("id") for element in book.tree(name).iter() if element.get("id")]
        assert len(ids) == len(set(ids)), name


def test_a_lesson_says_what_is_needed_on_the_floor(book: OpenedBook) -> None:
    words = book.words("lesson-short-hold.xhtml")
    for wanted in (
        *("lying on the back", "2 sets of 5 breaths, 40 s rest between", "3-3-3-3"),
        *("In for three", "Out for three", "You feel dizzy", "The throat locks: hold for less"),
        *("Five breaths go by with a soft throat", "mat; at home a folded blanket"),
        "This lesson was reviewed 1 October 2026 by course lead.",
    ):
        assert wanted in words


def test_coach_notes_are_not_in_it(book: OpenedBook) -> None:
    assert not any("soft throat\u201d" in book.words(name) for name in book.chapters)
    assert not any("when somebody strains" in book.words(name) for name in book.chapters)


def test_a_link_that_only_the_website_has_becomes_words(small_course: Course) -> None:
    lesson = small_course.by_id["short-hold"]
    told = replace(
        lesson, summary="See [props](props.md), [[plain-count]] or [us](https://a.test)."
    )
    course = replace(
        small_course, lessons=tuple(told if one is lesson else one for one in small_course.lessons)
    )
    made = open_book(make_book(course, paint_cover(), NOON))
    lead = made.tree("lesson-short-hold.xhtml").find(f".//{XHTML}p[@class='lead']")
    assert lead is not None
    links = [link.get("href") for link in lead.iter(f"{XHTML}a")]
    assert links == [None, "lesson-plain-count.xhtml", "https://a.test"]
    assert "props" in "".join(lead.itertext())


def test_signs_of_markup_in_words_stay_words(small_course: Course) -> None:
    notice = replace(
        small_course.notices[0], title='<b>&amp; "all"', long="<script>x</script>\n\na &nbsp; b\x0c"
    )
    settings = replace(small_course.settings, title="A & B <i>", caution="Ask < 'them' & wait.")
    course = replace(small_course, settings=settings, notices=(notice, *small_course.notices[1:]))
    made = open_book(make_book(course, paint_cover(), NOON))
    words = made.words("safety.xhtml")
    assert '<b>&amp; "all"' in words
    assert "<script>x</script>" in words
    assert "a b" in words
    assert "Ask < 'them' & wait." in words
    assert made.tree("package.opf").findtext(f".//{DC}title") == "A & B <i>"


def test_the_same_course_gives_the_same_bytes(content: bytes, small_course: Course) -> None:
    assert make_book(small_course, paint_cover(), NOON) == content
    with zipfile.ZipFile(BytesIO(content)) as book:
        assert {entry.date_time for entry in book.infolist()} == {(1980, 1, 1, 0, 0, 0)}


@pytest.mark.parametrize(
    ("epoch", "told"),
    [("1700000000", datetime(2023, 11, 14, 22, 13, 20, tzinfo=UTC)), (None, None)],
)
def test_the_day_of_change_is_told_or_the_newest_review(
    small_course: Course, epoch: str | None, told: datetime | None
) -> None:
    lesson = small_course.lessons[0]
    assert lesson.reviewed is not None
    newest = replace(lesson, reviewed=replace(lesson.reviewed, on=date(2026, 11, 1)))
    course = replace(small_course, lessons=(newest, *small_course.lessons[1:]))
    assert find_modified(course, epoch) == (told or datetime(2026, 11, 1, tzinfo=UTC))
