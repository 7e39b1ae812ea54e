"""The starter course's figures: each drawn small, and everything that moves marked in it."""

from pathlib import Path

import pytest

from builder.course.course import Course
from builder.course.figure import Figure
from builder.course.lesson import Limb
from builder.drawing.figure.stage import set_scenes
from builder.drawing.figure.words import describe
from builder.drawing.labels import ENGLISH
from builder.publishing.figures.picture import make_picture
from builder.reading.course_folder import read_course

ROOT = Path(__file__).parent.parent
LARGEST = 12_000
"""Bytes of one figure as SVG."""
NAMES = sorted(
    path.stem for path in (ROOT / "content" / "lessons").rglob("[a-z-]*.md") if "." not in path.stem
)


@pytest.fixture(scope="module")
def course() -> Course:
    course = read_course(ROOT).course
    assert course is not None
    return course


def find_figure(course: Course, name: str) -> Figure:
    figure = course.by_id[name].figure
    assert figure is not None
    return figure


@pytest.mark.parametrize("name", NAMES)
def test_a_figure_is_under_twelve_kilobytes(course: Course, name: str) -> None:
    assert len(make_picture(find_figure(course, name), name, "en").encode()) < LARGEST


@pytest.mark.parametrize("name", NAMES)
def test_a_drill_that_moves_is_told_and_marked(course: Course, name: str) -> None:
    lesson, figure = course.by_id[name], find_figure(course, name)
    words = describe(figure, set_scenes(figure), ENGLISH.language)
    drawing = make_picture(figure, name, "en")
    if lesson.drill.moving and figure.has_move_arrows and figure.view.value != "above":
        assert 'class="move"' in drawing
    if lesson.drill.moving:
        assert "On the out-breath" in words or "All the time" in words
    if figure.breath:
        assert 'class="breath"' in drawing
        assert "On the in-breath" in words


@pytest.mark.parametrize("name", NAMES)
def test_a_drill_without_a_moving_limb_shows_none(course: Course, name: str) -> None:
    lesson, figure = course.by_id[name], find_figure(course, name)
    limbs = {*Limb} - {Limb.TRUNK}
    if limbs.isdisjoint(lesson.drill.moving) and Limb.TRUNK not in lesson.drill.moving:
        words = describe(figure, set_scenes(figure), ENGLISH.language)
        assert " arm " not in words.replace(" arm's", "")
        assert " leg " not in words
