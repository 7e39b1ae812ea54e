from dataclasses import replace

import pytest

from builder import rules
from builder.checks.air import find_big_breaths
from builder.course.dose import Dose, TimedDose
from builder.course.reference_body import LungReference, ReferenceBody
from builder.course.tempo import Tempo

TALL = ReferenceBody("tall", LungReference.MALE, 30, 190, 80)


def _set(small_course, change_lesson, *, count, breaths, met, **parts):
    effort = replace(small_course.vocabulary.efforts["resting"], met=met)
    dose = Dose(2, breaths, 30)
    return change_lesson(tempo=Tempo.parse(count), dose=dose, effort=effort, **parts)


@pytest.mark.parametrize(
    ("drill", "found"),
    [
        (("4-1-4-1", 6, 1.3), []),  # 42 % for the oldest
        (("4-1-4-1", 6, 1.8), [rules.BIG_BREATH]),
        (("4-1-4-1", 5, 1.8), []),  # 50 s
        (("3-0-3-0", 10, 1.8), []),  # a minute of small breaths
        (("4-4-4-4", 4, 2.3), [rules.BREATH_BEYOND_CAPACITY]),
        (("4-4-4-4", 3, 2.3), []),  # 48 s: shown on the chart, not flagged
    ],
)
def test_sets_of_a_minute_keep_breaths_small(small_course, change_lesson, drill, found):
    count, breaths, met = drill
    course = _set(small_course, change_lesson, count=count, breaths=breaths, met=met)
    assert [finding.rule for finding in find_big_breaths(course)] == found


def test_the_finding_shows_every_body_and_the_nearest_count_that_passes(
    small_course, change_lesson
):
    course = _set(small_course, change_lesson, count="4-4-4-4", breaths=4, met=1.3)
    (finding,) = find_big_breaths(course)
    assert finding.cure == "count 3-3-3-3, or keep sets under a minute with 3 breaths at most"
    assert [line.split(" (")[0] for line in finding.details] == [
        body.name for body in course.reference_bodies
    ]
    assert "64%" in finding.fact
    cured = _set(small_course, change_lesson, count="3-3-3-3", breaths=5, met=1.3)
    assert list(find_big_breaths(cured)) == []


def test_every_lesson_with_big_breaths_is_found(small_course, change_lesson):
    course = _set(small_course, change_lesson, count="4-4-4-4", breaths=4, met=1.3)
    first, second = course.by_id["plain-count"], course.by_id["long-out"]
    both = tuple(
        replace(lesson, drill=first.drill) if lesson is second else lesson
        for lesson in course.lessons
    )
    found = find_big_breaths(replace(course, lessons=both))
    assert {finding.place.path for finding in found} == {first.path, second.path}


def test_a_course_of_tall_people_may_count_slower(small_course, change_lesson):
    course = _set(small_course, change_lesson, count="4-4-4-4", breaths=4, met=1.3)
    assert list(find_big_breaths(replace(course, reference_bodies=(TALL,)))) == []


def test_rungs_of_a_ladder_are_looked_at_too(small_course, change_lesson):
    course = _set(
        small_course, change_lesson, count="4-1-6-1", breaths=5, met=1.3, ladder=(12.0, 13.0)
    )
    (finding,) = find_big_breaths(course)
    assert finding.fact.startswith("breaths of 13 s")
    assert finding.place == course.by_id["plain-count"].at("ladder")
    assert finding.cure.startswith("end the ladder under 12.2 s")


@pytest.mark.parametrize("parts", [{"tempo": None}, {"dose": TimedDose(4)}])
def test_drills_without_a_count_are_left_alone(change_lesson, parts):
    assert list(find_big_breaths(change_lesson(**parts))) == []


def test_where_no_count_is_short_enough_the_effort_must_give(small_course, change_lesson):
    course = _set(small_course, change_lesson, count="4-1-4-1", breaths=6, met=6)
    (finding,) = find_big_breaths(course)
    assert finding.cure.startswith("take a lighter effort")
