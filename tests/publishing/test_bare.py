"""Courses without the places at which their values stand."""

from dataclasses import replace

from builder.course.course import Course
from builder.findings import Place
from builder.publishing.bare import bare_course
from builder.work.digest import spell


def test_where_values_stand_is_left_out_and_the_postures_of_the_course_are_not(
    small_course: Course,
) -> None:
    moved = {"title": (9, 9)}
    notices = (
        replace(each, place=Place("x", 7, 1), positions=moved, long_line=4)
        for each in small_course.notices
    )
    other = replace(
        small_course,
        settings=replace(small_course.settings, positions=moved),
        lessons=tuple(replace(each, positions=moved) for each in small_course.lessons),
        notices=tuple(notices),
        translations={"es": small_course},
    )
    twin = replace(small_course, translations={"es": small_course})
    assert spell(bare_course(other)) == spell(bare_course(twin))
    positions = dict(tuple(small_course.vocabulary.positions.items())[:-1])
    fewer = replace(small_course, vocabulary=replace(small_course.vocabulary, positions=positions))
    assert spell(bare_course(fewer)) != spell(bare_course(small_course))
