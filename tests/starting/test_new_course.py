import re
from datetime import date, timedelta
from pathlib import Path

import pytest

from builder.checks.run import check_course
from builder.course.course import Course
from builder.errors import BuilderError
from builder.reading.course_folder import read_course
from builder.resources import find_starter
from builder.starting.new_course import NewCourse, make_course, read_starter
from builder.starting.wishes import Wishes

STRANDS = tuple(read_starter().vocabulary.strands)
AWKWARD = 'Anna\'s "Quiet" Room: <b>Breath</b> & #1 👩‍👧'


@pytest.fixture(scope="module")
def starter() -> Course:
    return read_starter()


def read_soon_after(folder: Path, starter: Course) -> Course:
    """Read a course on the day of the latest review, so that none has run out."""
    known = [
        *(lesson.reviewed for lesson in starter.lessons),
        *(notice.reviewed for notice in starter.notices),
    ]
    reviews = [review.on for review in known if review]
    reading = read_course(folder, today=max(reviews) + timedelta(days=1))
    assert reading.findings == ()
    assert reading.course
    return reading.course


def find_starter_text(path: Path, content: Path) -> str:
    return (find_starter() / path.relative_to(content)).read_text("utf-8")


@pytest.mark.parametrize("strand", STRANDS)
def test_any_strand_makes_a_course_without_findings(
    tmp_path: Path, starter: Course, strand: str
) -> None:
    made = make_course(tmp_path / "c", Wishes("Harbour", strands=(strand,)), starter)
    course = read_soon_after(made.folder, starter)
    assert check_course(course) == ()
    assert strand in course.vocabulary.strands
    assert {lesson.strand.id for lesson in course.lessons} == set(course.vocabulary.strands)
    assert made.lessons == len(course.lessons)


@pytest.mark.parametrize("strand", STRANDS)
def test_no_file_names_a_lesson_that_did_not_come(
    tmp_path: Path, starter: Course, strand: str
) -> None:
    made = make_course(tmp_path / "c", Wishes("Harbour", strands=(strand,)), starter)
    known = {path.stem for path in made.folder.glob("content/lessons/*/*.md")}
    for path in made.folder.glob("content/**/*.md"):
        assert set(re.findall(r"\[\[([a-z0-9-]+)\]\]", path.read_text("utf-8"))) <= known, path


@pytest.mark.parametrize("strand", STRANDS)
def test_lessons_differ_from_the_starter_in_what_comes_after_them_only(
    tmp_path: Path, starter: Course, strand: str
) -> None:
    made = make_course(tmp_path / "c", Wishes("Harbour", strands=(strand,)), starter)
    content = made.folder / "content"
    for path in content.glob("lessons/*/*.md"):
        old = find_starter_text(path, content).splitlines()
        new = path.read_text("utf-8").splitlines()
        changed = [line for line in old if line not in new]
        assert all(line.startswith("harder:") for line in changed), path
    for path in content.glob("notices/*.md"):
        assert path.read_text("utf-8") == find_starter_text(path, content)


def test_the_whole_starter_comes_byte_for_byte_but_for_the_course_file(
    tmp_path: Path, starter: Course
) -> None:
    made = make_course(tmp_path / "c", Wishes("Harbour"), starter)
    origin = find_starter()
    paths = {path.relative_to(origin) for path in origin.rglob("*") if path.is_file()}
    paths = {path for path in paths if ".es." not in path.name and path.parts[0] != ".originals"}
    paths -= {Path("releases.yml")}  # another studio has released nothing yet
    content = made.folder / "content"
    assert {path.relative_to(content) for path in content.rglob("*") if path.is_file()} == paths
    for path in paths - {Path("course.yml")}:
        assert (content / path).read_bytes() == (origin / path).read_bytes()
    assert (made.brought, made.changed_pages) == ((), ())


def test_a_strand_that_is_needed_is_brought_and_named(tmp_path: Path, starter: Course) -> None:
    made = make_course(tmp_path / "c", Wishes("Harbour", strands=("brace",)), starter)
    assert {brought.strand.id for brought in made.brought} == {"first-checks", "breath"}
    for brought in made.brought:
        assert brought.leans_on.strand == brought.strand


def test_only_called_for_notices_come_along(tmp_path: Path, starter: Course) -> None:
    made = make_course(tmp_path / "c", Wishes("Harbour", strands=("first-checks",)), starter)
    notices = {path.stem for path in made.folder.glob("content/notices/*.md")}
    assert "holding-the-breath" in notices
    assert "back-pain" not in notices


def test_pages_that_lost_words_are_told(tmp_path: Path, starter: Course) -> None:
    made = make_course(tmp_path / "c", Wishes("Harbour", strands=("first-checks",)), starter)
    assert "content/strands.md" in made.changed_pages
    text = (made.folder / "content" / "strands.md").read_text("utf-8")
    assert "## First checks" in text
    assert "## Tempo" not in text
    assert "### Tempo" in (made.folder / "content" / "glossary.md").read_text("utf-8")


def test_an_awkward_name_is_read_back_as_it_was_given(tmp_path: Path, starter: Course) -> None:
    made = make_course(tmp_path / "c", Wishes(AWKWARD, "x: y # z"), starter)
    studio = read_soon_after(made.folder, starter).settings.studio
    assert (studio.name, studio.contact) == (AWKWARD, "x: y # z")


@pytest.mark.parametrize("language", ["es", "en-US", "true"])
def test_a_language_that_the_lessons_are_not_in_is_refused(
    tmp_path: Path, starter: Course, language: str
) -> None:
    with pytest.raises(BuilderError, match=f'not written as in "{language}"'):
        make_course(tmp_path / "c", Wishes("Harbour", language=language), starter)
    assert list(tmp_path.iterdir()) == []


@pytest.mark.parametrize("language", ["en", "en-IE", "en-AU"])
def test_a_language_of_the_same_spelling_is_taken(
    tmp_path: Path, starter: Course, language: str
) -> None:
    made = make_course(tmp_path / "c", Wishes("Harbour", language=language), starter)
    assert read_soon_after(made.folder, starter).settings.language == language


@pytest.mark.parametrize(
    ("wishes", "fact"),
    [
        (Wishes(""), "no letter"),
        (Wishes("A", accent="#ffcc00"), "too pale"),
        (Wishes("A", paper="a7"), "no paper"),
        (Wishes("A", address="a"), "no web address"),
        (Wishes("A", strands=("tempi",)), 'no strand is called "tempi"; write "tempo"'),
    ],
)
def test_a_wish_that_can_not_be_met_leaves_nothing_behind(
    tmp_path: Path, starter: Course, wishes: Wishes, fact: str
) -> None:
    with pytest.raises(BuilderError, match=fact):
        make_course(tmp_path / "c", wishes, starter)
    assert list(tmp_path.iterdir()) == []


def test_nothing_is_ever_written_over(tmp_path: Path, starter: Course) -> None:
    first = make_course(tmp_path / "c", Wishes("Harbour"), starter)
    before = {path: path.read_bytes() for path in first.folder.rglob("*") if path.is_file()}
    with pytest.raises(BuilderError, match="not empty"):
        make_course(tmp_path / "c", Wishes("Other"), starter)
    assert {path: path.read_bytes() for path in first.folder.rglob("*") if path.is_file()} == before


def test_a_course_made_long_after_the_reviews_still_comes_with_word_of_them(
    tmp_path: Path, starter: Course
) -> None:
    made: NewCourse = make_course(tmp_path / "c", Wishes("Harbour"), starter)
    later = read_course(made.folder, today=date(2099, 1, 1)).course
    assert later
    assert {finding.rule.id for finding in check_course(later)} == {"N103"}
    assert {finding.rule.id for finding in made.findings} <= {"N103"}


def test_a_new_course_begins_in_one_language(tmp_path: Path, starter: Course) -> None:
    assert starter.translations
    made = make_course(tmp_path / "c", Wishes("Harbour"), starter)
    assert read_soon_after(made.folder, starter).settings.languages == {}
    content = made.folder / "content"
    assert [path for path in content.rglob("*") if ".es." in path.name] == []
    assert not (content / ".originals").exists()
