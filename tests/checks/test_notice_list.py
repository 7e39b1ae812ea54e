"""The list of notices: whichever file is lost, it is missed."""

from dataclasses import replace

import pytest

from builder.checks import notice_list
from builder.reading.course_folder import read_course

ALL = ("floor", "general", "holding", "on-the-back", "slow")


def with_list(course, listed):
    return replace(course, settings=replace(course.settings, notices=listed))


def test_a_course_with_a_full_list_is_clean(small_course):
    course = with_list(small_course, ALL)
    assert not list(notice_list.find_lost_notices(course))
    assert not list(notice_list.find_unlisted_notices(course))


def test_a_course_without_a_list_is_left_alone(small_course):
    course = replace(small_course, notices=())
    assert not list(notice_list.find_lost_notices(course))
    assert not list(notice_list.find_unlisted_notices(small_course))


@pytest.mark.parametrize("lost", ALL)
def test_each_notice_is_missed_when_it_is_lost(small_course, lost):
    kept = tuple(notice for notice in small_course.notices if notice.id != lost)
    (found,) = notice_list.find_lost_notices(with_list(replace(small_course, notices=kept), ALL))
    assert found.fact == f'the notice "{lost}" is gone, so no page and no card shows it'
    assert found.cure == f"put notices/{lost}.md back, or take it off this list"


def test_a_renamed_notice_is_found_again(small_course):
    changed = tuple(
        replace(notice, id="holdings") if notice.id == "holding" else notice
        for notice in small_course.notices
    )
    course = with_list(replace(small_course, notices=changed), ALL)
    (lost,) = notice_list.find_lost_notices(course)
    assert lost.cure == 'write "holdings" if that is meant'
    (unlisted,) = notice_list.find_unlisted_notices(course)
    assert unlisted.cure == "add it to notices there"


def test_a_notice_with_a_faulty_file_is_not_lost(write_course):
    root = write_course({"content/notices/holding.md": ""})
    course = read_course(root).course
    assert course.unreadable_notices == {"holding"}
    assert not list(notice_list.find_lost_notices(with_list(course, ALL)))
