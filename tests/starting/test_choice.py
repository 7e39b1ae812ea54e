from pathlib import Path

import pytest

from builder.course.course import Course
from builder.errors import InvalidValueError
from builder.reading.course_folder import read_course
from builder.starting.choice import Brought, choose, find_strands

SMALL_COURSE = Path(__file__).parents[1] / "small_course"


@pytest.fixture
def starter() -> Course:
    course = read_course(SMALL_COURSE).course
    assert course
    return course


def texts_of(starter: Course) -> dict[str, str]:
    return {each.id: (SMALL_COURSE / each.path).read_text("utf-8") for each in starter.lessons}


def test_strands_are_known_by_id_and_by_title_in_teaching_order(starter: Course) -> None:
    assert find_strands(starter, ["COUNT", " breath "]) == ("breath", "count")
    assert find_strands(starter, ["Count"]) == ("count",)


@pytest.mark.parametrize("names", [[], [""], ["all"], ["count", "ALL"]])
def test_no_name_means_all(starter: Course, names: list[str]) -> None:
    assert find_strands(starter, names) == ("breath", "count")


def test_an_unknown_strand_is_refused_with_the_nearest_name(starter: Course) -> None:
    with pytest.raises(InvalidValueError, match=r'"breth".*write "breath" if that is meant'):
        find_strands(starter, ["breth"])
    with pytest.raises(InvalidValueError, match="choose from breath, count"):
        find_strands(starter, ["zzz"])


def test_a_strand_brings_those_that_its_lessons_need(starter: Course) -> None:
    choice = choose(starter, ["count"], texts_of(starter))
    known = starter.by_id
    strand = starter.vocabulary.strands["breath"]
    assert choice.brought == (Brought(strand, known["plain-count"], known["wide-ribs"]),)
    assert choice.lessons == frozenset(known)


def test_a_strand_that_stands_alone_comes_alone(starter: Course) -> None:
    choice = choose(starter, ["breath"], texts_of(starter))
    assert choice.brought == ()
    assert choice.lessons == {"hand-on-belly", "wide-ribs"}


def test_a_lesson_that_a_text_speaks_of_is_needed_too(starter: Course) -> None:
    texts = texts_of(starter) | {"hand-on-belly": "Or do [[ plain-count ]]."}
    choice = choose(starter, ["breath"], texts)
    assert [(each.strand.id, each.leans_on.id) for each in choice.brought] == [
        ("count", "plain-count")
    ]


def test_only_notices_that_a_chosen_lesson_calls_for_come_along(starter: Course) -> None:
    every = choose(starter, ["count"], texts_of(starter))
    some = choose(starter, ["breath"], texts_of(starter))
    assert {notice.id for notice in every.notices} == {notice.id for notice in starter.notices}
    assert {notice.id for notice in some.notices} == {"floor", "general", "on-the-back"}
