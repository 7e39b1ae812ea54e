"""Order: circles, gaps and dead ends, beyond what the pages of the rules show."""

from dataclasses import replace

import pytest

from builder.checks import order
from builder.course.vocabulary import Effort

LIGHT = Effort("light", 2.3, "Compendium 2024", "02101", rank=1)


def facts(findings):
    return [finding.fact for finding in findings]


def test_a_circle_is_printed_whole_and_once(change_lesson):
    course = change_lesson("hand-on-belly", builds_on=("short-hold",))
    assert facts(order.find_circular_order(course)) == [
        "nobody can start here: hand-on-belly builds on short-hold builds on plain-count "
        "builds on wide-ribs builds on hand-on-belly"
    ]


def test_a_lesson_that_builds_on_itself_is_a_circle(change_lesson):
    course = change_lesson("long-out", builds_on=("plain-count", "long-out"))
    assert facts(order.find_circular_order(course)) == [
        "nobody can start here: long-out builds on long-out"
    ]


def test_what_comes_after_a_circle_is_out_of_reach_but_no_part_of_it(change_lesson):
    course = change_lesson("hand-on-belly", builds_on=("wide-ribs",))
    (found,) = order.find_unreachable_lessons(course)
    assert found.place.path.endswith("/plain-count.md")
    assert found.fact == (
        'no way leads here, nor to 2 lessons behind it, because "wide-ribs" can\'t be reached'
    )


def test_a_lesson_behind_two_blocks_is_counted_behind_both(change_lesson):
    course = change_lesson("plain-count", builds_on=("gone",))
    course = change_lesson("short-hold", course, builds_on=("plain-count", "lost"))
    assert facts(order.find_unreachable_lessons(course)) == [
        'no way leads here, nor to 2 lessons behind it, because "gone" can\'t be reached',
        'no way leads here, because "lost" can\'t be reached',
    ]


def test_lessons_whose_files_have_faults_are_not_missing(small_course):
    lessons = tuple(lesson for lesson in small_course.lessons if lesson.id != "wide-ribs")
    course = replace(small_course, lessons=lessons, unreadable=frozenset({"wide-ribs"}))
    assert not list(order.find_unknown_builds_on(course))
    assert not list(order.find_unknown_neighbours(course))
    assert not list(order.find_unreachable_lessons(course))
    assert not list(order.find_skipped_levels(course))


def test_a_name_with_a_slip_gets_the_nearest_one(change_lesson):
    (found,) = order.find_unknown_builds_on(change_lesson("long-out", builds_on=("plan-count",)))
    assert found.cure == 'write "plain-count" if that is meant'


def test_a_name_like_no_other_gets_a_plain_cure(change_lesson):
    (found,) = order.find_unknown_builds_on(change_lesson("long-out", builds_on=("zzz",)))
    assert found.cure == "name a lesson of this course"


def test_equal_levels_are_no_gap_and_strands_count_apart(change_lesson):
    assert not list(order.find_skipped_levels(change_lesson("plain-count", level=2)))
    assert len(list(order.find_skipped_levels(change_lesson("wide-ribs", level=4)))) == 1


def test_an_easier_version_may_ask_more_if_it_comes_before(change_lesson):
    course = change_lesson("plain-count", easier=("hand-on-belly",))
    assert not list(order.find_easier_not_easier(course))


def test_a_lesson_is_not_easier_than_what_it_builds_on(change_lesson):
    course = change_lesson("hand-on-belly", easier=("wide-ribs",))
    assert facts(order.find_easier_not_easier(course)) == [
        '"wide-ribs" has a demand of 0 in all, this lesson 0'
    ]


def test_pages_in_another_order_are_compared_with_what_builds_on_what(small_course):
    shown = ("plain-count", "wide-ribs", "hand-on-belly")
    assert facts(order.find_out_of_order(small_course, shown)) == [
        'the site shows "plain-count" before "wide-ribs", on which it builds',
        'the site shows "wide-ribs" before "hand-on-belly", on which it builds',
    ]


def test_lessons_that_are_not_shown_are_out_of_no_order(small_course):
    assert not list(order.find_out_of_order(small_course, ("short-hold", "elsewhere")))


def test_lessons_with_other_steps_are_no_twins(small_course):
    assert not list(order.find_twin_lessons(small_course))


@pytest.mark.parametrize(
    ("first", "second", "is_easier"),
    [
        ({"level": 1}, {"level": 2}, True),  # the same strand, the same demand: the level tells
        ({"level": 2}, {"level": 2}, False),
        ({"level": 3}, {"level": 2}, False),
        ({"level": 1}, {"level": 2, "strand": "count"}, False),
        ({"level": 1, "effort": LIGHT}, {"level": 2}, False),  # asks more
        ({"level": 3}, {"level": 2, "effort": LIGHT}, True),  # asks less
        ({"level": 3}, {"level": 2, "strand": "count", "effort": LIGHT}, True),
    ],
)
def test_of_strangers_the_easier_one_asks_less_or_as_much_at_a_lower_level(
    small_course, change_lesson, first, second, is_easier
):
    """Two lessons that hang on nothing name each other."""
    strands = {strand.id: strand for strand in small_course.vocabulary.strands.values()}
    second = {**second, "strand": strands[second.get("strand", "breath")]}
    course = change_lesson("hand-on-belly", harder=("wide-ribs",), **first)
    course = change_lesson(
        "wide-ribs", course, builds_on=(), easier=("hand-on-belly",), harder=(), **second
    )
    easier = [finding.fact for finding in order.find_easier_not_easier(course)]
    harder = [finding.fact for finding in order.find_harder_not_harder(course)]
    assert any('"hand-on-belly"' in fact for fact in easier) is not is_easier
    assert any('"wide-ribs"' in fact for fact in harder) is not is_easier


def test_a_page_of_no_lesson_ends_no_look_at_the_order(small_course):
    shown = ("elsewhere", "plain-count", "wide-ribs")
    assert len(facts(order.find_out_of_order(small_course, shown))) == 1


def test_one_lesson_behind_is_no_more_than_one(change_lesson):
    course = change_lesson("plain-count", builds_on=("gone",))
    course = change_lesson("long-out", course, builds_on=())
    (fact,) = facts(order.find_unreachable_lessons(course))
    assert "nor to 1 lesson behind it" in fact
