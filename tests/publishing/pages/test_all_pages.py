"""What the generated pages say, as text that any host takes."""

import re
from collections.abc import Mapping

import pytest

from builder.course.course import Course
from builder.publishing.pages.all_pages import make_pages
from builder.publishing.pages.links import Site, lesson_page
from builder.publishing.views.inline import no_link
from builder.publishing.views.lesson_in_words import view_lesson
from builder.reading.course_folder import CourseReading, read_course
from tests.conftest import SMALL_COURSE, WriteCourse

PAPERS = (("a6", "A6"), ("a4", "A4"))


def read_small() -> CourseReading:
    return read_course(SMALL_COURSE)


def make(reading: CourseReading, papers: tuple[tuple[str, str], ...] = PAPERS) -> dict[str, str]:
    assert reading.course is not None
    made = make_pages(Site(reading.course, papers=papers), reading.pages)
    return {path: text for path, text in made.items() if isinstance(text, str)}


@pytest.fixture(scope="module")
def pages() -> Mapping[str, str]:
    return make(read_small())


@pytest.fixture(scope="module")
def course() -> Course:
    read = read_small().course
    assert read is not None
    return read


def test_every_lesson_strand_and_needed_page_is_made(
    pages: Mapping[str, str], course: Course
) -> None:
    wanted = {lesson_page(lesson) for lesson in course.lessons}
    wanted |= {"lessons/breath/index.md", "lessons/count/index.md"}
    wanted |= {"index.md", "map.md", "safety.md", "props.md", "coaches.md", "authors/index.md"}
    assert wanted <= set(pages)


def test_coach_notes_reach_no_page(pages: Mapping[str, str], course: Course) -> None:
    notes = [passage.text for lesson in course.lessons for passage in lesson.words.coach_notes]
    # Rule pages quote example lessons whole; every other page is looked at.
    shown = "".join(text for path, text in pages.items() if not path.startswith("authors/"))
    assert notes
    assert [note for note in notes if note[:20] in shown] == []


def test_every_page_carries_the_caution(pages: Mapping[str, str], course: Course) -> None:
    caution = course.settings.caution
    assert [path for path, text in pages.items() if caution not in text] == []


def test_a_lesson_page_shows_tempo_dose_time_and_cues(
    pages: Mapping[str, str], course: Course
) -> None:
    page = pages["lessons/count/short-hold.md"]
    view = view_lesson(course, course.by_id["short-hold"], no_link)
    assert view.tempo is not None
    for text in (view.tempo.text, view.tempo.spoken, view.tempo.rate, view.dose, view.time):
        assert text in page
    assert "In for three" in page
    assert "Out for three" in page
    assert page.count("<svg") == 1 + page.count("data-tl-count=")  # one strip, and the pacer's
    assert 1 < page.count("<svg") <= 4


def test_a_lesson_page_links_each_notice_to_its_full_text(
    pages: Mapping[str, str], course: Course
) -> None:
    page = pages["lessons/count/short-hold.md"]
    for notice in course.notices_for(course.by_id["short-hold"]):
        assert f'href="../../../safety/#notice-{notice.id}"' in page
        assert f'id="notice-{notice.id}"' in pages["safety.md"]


def test_a_lesson_page_names_easier_harder_and_what_it_builds_on(pages: Mapping[str, str]) -> None:
    ways = pages["lessons/count/short-hold.md"].partition("## Before and after")[2]
    assert re.search(r"Builds on</span>\s*<a href=\"../plain-count/\">", ways)
    assert re.search(r"Easier</span>\s*<a href=\"../plain-count/\">", ways)


def test_ready_when_is_a_box_with_its_own_number(pages: Mapping[str, str]) -> None:
    page = pages["lessons/count/short-hold.md"]
    assert 'data-tl-lesson="short-hold" data-tl-boxes="1"' in page
    assert '<input type="checkbox" data-tl-tick="0">' in page


def test_cards_are_offered_in_the_courses_own_paper_first(pages: Mapping[str, str]) -> None:
    cards = re.findall(r'href="([^"]+\.pdf)"', pages["lessons/count/short-hold.md"])
    assert cards == ["../../../cards/short-hold.pdf", "../../../cards/a4/short-hold.pdf"]


def test_without_papers_no_page_points_at_a_card() -> None:
    made = make(read_small(), ())
    named = [path for path, text in made.items() if ".pdf" in text]
    named = [path for path in named if path not in (f"authors/E{n}.md" for n in range(101, 111))]
    assert named == ["authors/L106.md"]  # its example is a broken card; E's are of finished ones


def test_a_prop_is_named_with_its_stand_in(pages: Mapping[str, str]) -> None:
    assert "at home a folded blanket" in pages["lessons/count/short-hold.md"]
    assert 'id="prop-mat"' in pages["props.md"]


def test_lesson_names_become_links_in_the_studios_pages(pages: Mapping[str, str]) -> None:
    title = read_small().course.by_id["hand-on-belly"].title  # type: ignore[union-attr]
    assert f"[{title}](lessons/breath/hand-on-belly.md)" in pages["index.md"]


def test_lesson_names_in_code_stay_as_they_are(write_course: WriteCourse) -> None:
    root = write_course({"content/extra.md": "# Extra\n\nWrite `[[hand-on-belly]]` so.\n"})
    assert "`[[hand-on-belly]]`" in make(read_course(root))["extra.md"]


def test_the_map_stands_as_drawing_and_as_list(pages: Mapping[str, str], course: Course) -> None:
    drawn, _, listed = pages["map.md"].partition("## The same map as a list")
    for lesson in course.lessons:
        address = f'href="../lessons/{lesson.strand.id}/{lesson.id}/"'
        assert address in drawn
        assert address in listed


def test_a_strand_page_says_what_its_lessons_ask_for(pages: Mapping[str, str]) -> None:
    page = pages["lessons/count/index.md"]
    assert "holding the breath" in page
    assert "takes longer than 10 minutes" in page


def test_safety_names_whom_a_notice_concerns_its_sources_and_its_review(
    pages: Mapping[str, str], course: Course
) -> None:
    safety = pages["safety.md"]
    holding = next(notice for notice in course.notices if notice.id == "holding")
    titles = [course.vocabulary.conditions[name].title for name in holding.conditions]
    assert titles
    assert all(title in safety for title in titles)
    assert "Sources:" in safety
    assert "reviewed 1 October 2026" in safety


def test_markup_in_titles_is_shown_and_never_run(write_course: WriteCourse) -> None:
    path = "content/lessons/count/short-hold.md"
    text = (SMALL_COURSE / path).read_text(encoding="utf-8")
    evil = text.replace("title: Short hold", 'title: "<script>x</script> *Short* hold"')
    made = make(read_course(write_course({path: evil})))
    assert [name for name, page in made.items() if "<script>x" in page] == []
    heading = r"# &lt;script&gt;x&lt;/script&gt; \*Short\* hold"
    assert heading in made["lessons/count/short-hold.md"]


def test_html_blocks_hold_no_blank_line(pages: Mapping[str, str]) -> None:
    """A blank line ends an HTML block in CommonMark (0.31, section 4.6, kind 6)."""
    blocks = re.compile(r"^<(ul|ol)\b.*?^</\1>|<svg\b.*?</svg>", re.DOTALL | re.MULTILINE)
    found = [match[0] for text in pages.values() for match in blocks.finditer(text)]
    assert len(found) > 50
    assert [block for block in found if re.search(r"\n\s*\n", block)] == []


def test_rule_pages_show_their_examples_under_the_files_name(pages: Mapping[str, str]) -> None:
    page = pages["authors/O102.md"]
    assert page.startswith('---\ntitle: "O102 circular-order"')
    assert "```yaml file=" not in page
    assert '<p class="tl-file">content/lessons/' in page


def test_pages_ask_no_one_outside_for_a_file() -> None:
    reading = read_small()
    assert reading.course is not None
    made = make_pages(Site(reading.course, papers=PAPERS), reading.pages)
    loaded = re.compile(rb"(?:src=[\"']|url\([\"']?|@import\s+[\"'])(?:https?:)?//")
    found = [
        path
        for path, text in made.items()
        if loaded.search(text if isinstance(text, bytes) else text.encode())
    ]
    assert found == []


def test_pages_hold_no_style_of_their_own(pages: Mapping[str, str]) -> None:
    assert [path for path, text in pages.items() if re.search(r"<[^>]+\sstyle=", text)] == []
