"""Cards as HTML: one golden card, and what must never be on one."""

import re
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

import pytest

from builder import __version__
from builder.course.audience import Audience
from builder.course.course import Course
from builder.publishing.cards.html import write_back, write_front
from builder.publishing.cards.setting import Setting
from tests.publishing.conftest import make_face

GOLDEN = Path(__file__).parent / "golden" / "short-hold-a5.html"
ROOMY = Setting(9, is_dense=False)


def test_a_card_is_written_as_its_golden_file_shows(
    small_course: Course, check_golden: Callable[[Path, str], None]
) -> None:
    html = write_front(make_face(small_course, "short-hold", "a5"), ROOMY)
    check_golden(GOLDEN, html.replace(f"tempoleaf {__version__}", "tempoleaf 0"))


@pytest.mark.parametrize("dense", [False, True])
def test_coach_notes_stand_on_the_back_of_coach_cards_only(
    small_course: Course, *, dense: bool
) -> None:
    setting = Setting(9, is_dense=dense)
    note = "somebody strains"
    client = make_face(small_course, "short-hold", "a5")
    coach = make_face(small_course, "short-hold", "a5", Audience.COACH)
    assert note not in write_front(client, setting)
    assert note not in write_front(coach, setting)
    assert note in write_back(coach, setting)


def test_a_coach_card_says_so_on_both_sides(small_course: Course) -> None:
    coach = make_face(small_course, "short-hold", "a5", Audience.COACH)
    assert '<span class="kind">Coach</span>' in write_front(coach, ROOMY)
    assert '<span class="kind">Coach</span>' in write_back(coach, ROOMY)
    assert 'class="kind"' not in write_front(make_face(small_course, "short-hold", "a5"), ROOMY)


def test_a_course_without_an_address_has_no_code_on_its_cards(small_course: Course) -> None:
    course = replace(small_course, settings=replace(small_course.settings, address=""))
    html = write_front(make_face(course, "short-hold", "a5"), ROOMY)
    assert "QR" not in html
    assert 'class="code"' not in html


def test_an_easier_lesson_that_the_text_names_is_not_named_again(small_course: Course) -> None:
    html = write_front(make_face(small_course, "short-hold", "a5"), ROOMY)
    assert html.count("Plain count") == 1


def test_actions_differ_in_words_and_not_in_colour(small_course: Course) -> None:
    html = write_front(make_face(small_course, "short-hold", "a5"), ROOMY)
    assert re.findall(r'<div class="row ([a-z-]+)"><h2><span>([^<]+)', html) == [
        ("stop", "Stop if"),
        ("ask-first", "Ask first"),
        ("adapt", "Adapt"),
        ("note", "Note"),
    ]


def test_what_an_author_writes_is_escaped(small_course: Course) -> None:
    face = make_face(small_course, "short-hold", "a5")
    lesson = replace(face.lesson, title='<b onclick="x">', caution="</p><script>")
    html = write_front(replace(face, lesson=lesson), ROOMY)
    assert "<script" not in html
    assert "&lt;b onclick=&#34;x&#34;&gt;" in html
