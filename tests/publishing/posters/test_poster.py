"""Posters: what is on them, and that nothing is cut off or painted twice."""

from collections.abc import Iterator
from concurrent.futures import Executor, ThreadPoolExecutor
from dataclasses import replace
from io import BytesIO
from pathlib import Path

import pytest
from PIL import Image

from builder.course.course import Course
from builder.publishing.cards.outline import Outliner
from builder.publishing.cards.pdf import open_press
from builder.publishing.pages.links import COURSE_POSTER
from builder.publishing.posters.paint import paint_poster
from builder.publishing.posters.poster import (
    TALL,
    Poster,
    make_course_poster,
    make_lesson_poster,
)
from builder.publishing.posters.run import paint_all
from builder.publishing.proof.read_back import join_readings, read_pdf
from builder.publishing.site.posters import list_posters
from builder.reading.course_folder import read_course
from builder.resources import find_starter
from builder.work.store import ContentStore

WORDS_END = 58 + 350
"""Where the box of words ends, in pixels from the top, as the style sheet has it."""


def read_words(poster: Poster) -> str:
    """Return the words of a poster as the engine has laid them out."""
    pdf = open_press().lay_out(poster.html, poster.style).write()
    return " ".join(join_readings(read_pdf(pdf)).split())


def open_picture(content: bytes) -> Image.Image:
    return Image.open(BytesIO(content)).convert("RGB")


def test_a_lessons_poster_says_where_it_belongs(small_course: Course) -> None:
    words = read_words(make_lesson_poster(small_course, small_course.by_id["short-hold"]))
    for wanted in ("Short hold", "Count, level 2", "in 3", "hold 3", "Small Studio", "A small"):
        assert wanted in words


def test_a_courses_poster_counts_its_lessons(small_course: Course) -> None:
    words = read_words(make_course_poster(small_course))
    for wanted in ("A small course", "Five lessons to try things on.", "5 lessons"):
        assert wanted in words


@pytest.mark.parametrize(("tall", "size"), [(False, (1200, 630)), (True, (1200, 1600))])
def test_pictures_have_their_size_to_the_pixel(
    small_course: Course, tall: bool, size: tuple[int, int]
) -> None:
    poster = make_course_poster(small_course, TALL) if tall else make_course_poster(small_course)
    assert open_picture(paint_poster(poster)).size == size


def test_the_courses_own_colours_are_used(small_course: Course) -> None:
    colours = replace(small_course.settings.colours, accent="#803300", paper="#fff8e0")
    course = replace(small_course, settings=replace(small_course.settings, colours=colours))
    picture = open_picture(paint_poster(make_course_poster(course)))
    for place, wanted in (((600, 4), (0x80, 0x33, 0x00)), ((4, 600), (0xFF, 0xF8, 0xE0))):
        painted = picture.getpixel(place)
        assert isinstance(painted, tuple)
        off = [abs(part - aim) for part, aim in zip(painted, wanted, strict=True)]
        assert max(off) <= 2  # the palette rounds


def test_the_same_poster_gives_the_same_bytes(small_course: Course) -> None:
    poster = make_lesson_poster(small_course, small_course.by_id["short-hold"])
    assert paint_poster(poster) == paint_poster(poster)


def test_the_longest_words_of_the_starter_course_fit_beside_their_figure() -> None:
    """What runs out of its box would be cut off there."""
    course = read_course(find_starter().parent).course
    assert course is not None
    by_length = sorted(course.lessons, key=lambda one: len(one.title) + len(one.summary))
    for lesson in by_length[-8:]:
        assert find_end(make_lesson_poster(course, lesson)) <= WORDS_END, lesson.id
    assert find_end(make_course_poster(course)) <= WORDS_END


def test_words_that_are_cut_off_would_be_noticed(small_course: Course) -> None:
    wordy = replace(small_course.by_id["short-hold"], summary="Words without an end. " * 20)
    assert find_end(make_lesson_poster(small_course, wordy)) > WORDS_END


def find_end(poster: Poster) -> float:
    """Return where the words of a poster end, in pixels from its top; beyond it if cut off."""
    marks = open_press().lay_out(poster.html, poster.style).marks
    return marks["end"].top_mm / 25.4 * 96 if "end" in marks else poster.height


class Counting(ThreadPoolExecutor):
    """A pool that counts its jobs."""

    jobs = 0

    def submit(self, *args: object, **kwargs: object):  # type: ignore[no-untyped-def, override]
        self.jobs += 1
        return super().submit(*args, **kwargs)  # type: ignore[arg-type]


@pytest.fixture
def pool() -> Iterator[Counting]:
    with Counting(1) as opened:
        yield opened


def test_what_the_cache_has_is_not_painted_again(
    small_course: Course, tmp_path: Path, pool: Counting
) -> None:
    shelf = ContentStore(tmp_path)
    posters = dict(list(list_posters(small_course, Outliner(small_course)).items())[:2])
    first = paint_all(posters, pool=pool, shelf=shelf)
    jobs = pool.jobs
    assert jobs == 1
    assert paint_all(posters, pool=pool, shelf=shelf) == first
    assert pool.jobs == jobs


def test_another_title_is_another_picture(
    small_course: Course, tmp_path: Path, pool: Executor
) -> None:
    shelf = ContentStore(tmp_path)
    renamed = replace(small_course, settings=replace(small_course.settings, title="Another"))
    pictures = [
        paint_all(list_posters(course, Outliner(course)), pool=pool, shelf=shelf).pictures[
            COURSE_POSTER
        ]
        for course in (small_course, renamed)
    ]
    assert pictures[0] != pictures[1]


def test_a_site_has_a_poster_for_each_lesson_and_one_for_the_course(small_course: Course) -> None:
    paths = set(list_posters(small_course, Outliner(small_course)))
    lessons = {f"previews/lessons/{lesson.id}.png" for lesson in small_course.lessons}
    assert paths == lessons | {"previews/course.png", "course.epub"}
