"""Guesses: how full a card will be, before it is laid out."""

from functools import partial
from pathlib import Path

import pytest

from builder.course.audience import Audience
from builder.course.course import Course
from builder.publishing.cards.face import CardFace, face_cards
from builder.publishing.cards.fit import list_settings, measure_filled
from builder.publishing.cards.guess import count_lines, guess_back, guess_front
from builder.publishing.cards.html import (
    measure_figure,
    read_style,
    stage_figure,
    write_back,
    write_front,
)
from builder.publishing.cards.pdf import Layout, Press, open_press
from builder.publishing.cards.printing import fit_card
from builder.reading.course_folder import read_course
from builder.resources import find_templates
from builder.sums.paper import PAPERS
from tests.publishing.conftest import make_face

ROOT = Path(__file__).parents[3]


@pytest.fixture(scope="module")
def demo_faces() -> tuple[CardFace, ...]:
    """Every third lesson of the starter course on an A5 card."""
    course = read_course(ROOT).course
    assert course
    return face_cards(course, course.lessons[::3], Audience.CLIENT, [PAPERS["a5"]])["a5"]


class CountingPress(Press):
    """A press that counts what it lays out."""

    layouts = 0

    def lay_out_apart(self, html: str, style: str) -> Layout:
        """Lay out and count."""
        self.layouts += 1
        return super().lay_out_apart(html, style)


@pytest.mark.parametrize("paper", PAPERS)
def test_a_front_is_guessed_within_a_line_or_two(small_course: Course, paper: str) -> None:
    face = make_face(small_course, "short-hold", paper)
    pair = stage_figure(face)
    guess = guess_front(face, face.paper, partial(measure_figure, face, pair))
    for setting in list_settings(face.paper)[::3]:
        layout = open_press().lay_out_apart(write_front(face, setting), read_style(face.paper))
        assert guess(setting) == pytest.approx(measure_filled(layout, face.paper), abs=0.06)


def test_a_back_is_guessed_within_a_line_or_two(small_course: Course) -> None:
    face = make_face(small_course, "short-hold", "a5", Audience.COACH)
    setting = list_settings(face.paper)[0]
    layout = open_press().lay_out_apart(write_back(face, setting), read_style(face.paper))
    guess = guess_back(face, face.paper)(setting)
    assert guess == pytest.approx(measure_filled(layout, face.paper), abs=0.06)


def test_lines_end_after_hyphens_and_slashes_and_not_at_hard_spaces() -> None:
    assert count_lines("aaaa-aaaa", 3) == count_lines("aaaa/aaaa", 3) == 2
    assert count_lines("aaaa\N{NO-BREAK SPACE}aaaa", 3) == 1
    assert count_lines("aaaa aaaa", 3) == 2


def test_nearly_every_card_is_laid_out_once(demo_faces: tuple[CardFace, ...]) -> None:
    press = CountingPress(find_templates() / "fonts")
    for face in demo_faces:
        fit_card(face, press)
    assert press.layouts <= 1.3 * len(demo_faces)


def test_no_larger_type_would_have_fitted(demo_faces: tuple[CardFace, ...]) -> None:
    for face in demo_faces[::4]:
        (fit,) = fit_card(face, open_press())
        settings = list_settings(face.paper)
        for larger in settings[: settings.index(fit.setting)][-1:]:
            layout = open_press().lay_out_apart(write_front(face, larger), read_style(face.paper))
            assert measure_filled(layout, face.paper) > 1
