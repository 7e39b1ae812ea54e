"""Plain data: every lesson comes back as it was, and nothing but what a type names is made."""

import json
from dataclasses import dataclass
from pathlib import Path

import pytest

from builder.course.lesson import Lesson
from builder.reading.course_folder import read_course
from builder.work.plain import find_maker, make_plain

ROOT = Path(__file__).parents[2]


@dataclass(frozen=True, slots=True)
class Leaf:
    """A value with one part."""

    name: str


@dataclass(frozen=True, slots=True)
class Stem:
    """A value with another."""

    leaf: Leaf | None
    both: Leaf | float | None = None


@pytest.mark.parametrize("folder", ["", "tests/small_course", "tests/second_course"])
def test_each_lesson_of_our_courses_comes_back_to_the_letter(folder):
    course = read_course(ROOT / folder).course
    for lesson in course.lessons:
        back = find_maker(Lesson)(json.loads(json.dumps(make_plain(lesson))))
        assert back == lesson
        assert make_plain(back) == make_plain(lesson)
        assert repr(back.drill.tempo) == repr(lesson.drill.tempo)
        assert repr(back.figure) == repr(lesson.figure)


def test_another_class_than_the_one_asked_for_is_refused():
    with pytest.raises(ValueError, match="a Stem is no Leaf"):
        find_maker(Leaf)(["Stem", None, None])


def test_a_value_that_has_too_few_parts_is_refused():
    with pytest.raises(ValueError, match="shorter"):
        find_maker(Leaf)(["Leaf"])


@pytest.mark.parametrize("value", [b"bytes", {1, 2}, 3j, object()])
def test_what_has_no_plain_form_is_refused_and_never_left_out(value):
    with pytest.raises(TypeError):
        make_plain(Leaf(value))


def test_a_type_whose_values_cant_be_told_apart_is_refused():
    with pytest.raises(TypeError):
        find_maker(Stem)
