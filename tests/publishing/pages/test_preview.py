from builder import rules
from builder.findings import Finding, Place
from builder.publishing.pages.all_pages import make_pages
from builder.publishing.pages.links import Site
from builder.publishing.pages.preview import add_findings, make_bare_pages
from builder.reading.course_folder import read_course
from tests.conftest import SMALL_COURSE


def find_at(path: str, fact: str = "something is wrong") -> Finding:
    return rules.WRONG_TYPE.at(Place(path, 3, 8), fact, "mend it")


def show(*findings: Finding) -> dict[str, str]:
    reading = read_course(SMALL_COURSE)
    assert reading.course is not None
    made = make_pages(Site(reading.course), reading.pages)
    shown = add_findings(made, findings, reading.course, "content")
    return {path: text for path, text in shown.items() if isinstance(text, str)}


def test_the_page_concerned_shows_place_fact_and_cure_opened() -> None:
    page = show(find_at("content/lessons/count/short-hold.md"))["lessons/count/short-hold.md"]
    assert "<details open>" in page
    assert "<code>content/lessons/count/short-hold.md:3:8</code>" in page
    assert "something is wrong; mend it." in page


def test_every_other_page_shows_the_number_and_the_list_folded() -> None:
    page = show(find_at("content/lessons/count/short-hold.md"))["map.md"]
    assert "<summary>1 finding in this course</summary>" in page
    assert "<details>" in page
    assert "something is wrong; mend it." in page


def test_a_notice_is_spoken_of_on_the_safety_page() -> None:
    assert "<details open>" in show(find_at("content/notices/floor.md"))["safety.md"]


def test_the_course_file_is_spoken_of_at_home() -> None:
    assert "<details open>" in show(find_at("content/course.yml"))["index.md"]


def test_a_lesson_that_cannot_be_read_gets_a_page_for_its_findings() -> None:
    page = show(find_at("content/lessons/count/broken.md"))["lessons/count/broken.md"]
    assert "# broken" in page
    assert "<details open>" in page


def test_what_an_author_wrote_is_shown_as_it_is() -> None:
    page = show(find_at("content/index.md", 'unknown key "<b>x</b>"'))["index.md"]
    assert "&lt;b&gt;x&lt;/b&gt;" in page


def test_the_panel_comes_after_the_header_of_a_page() -> None:
    page = show(find_at("content/index.md"))["index.md"]
    header, _, body = page.partition("\n---\n")
    assert header.startswith("---\ntitle:")
    assert body.lstrip().startswith('<div class="tl-findings"')


def test_a_course_that_cannot_be_read_still_has_a_home() -> None:
    shown = add_findings(make_bare_pages(), [find_at("content/course.yml")], None, "content")
    assert "something is wrong" in str(shown["index.md"])


def test_without_findings_pages_stay_as_they_are() -> None:
    bare = make_bare_pages()
    assert add_findings(bare, [], None, "content") is bare
