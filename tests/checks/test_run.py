"""All checks in one run: order, allowances, and what may not be allowed."""

from dataclasses import replace

import pytest

from builder import rules
from builder.checks.allowances import drop_allowed, may_be_allowed
from builder.checks.registry import CHECKS
from builder.checks.run import check_course
from builder.course.lesson import Cues
from builder.course.tempo import Tempo
from builder.findings import sort_findings

LONG_CUE = Cues("In, and in, and in, and in, and in again", "Out")
LATER = ("H", "C", "L", "G", "K", "V", "X", "A", "E", "U", "X")
"""Families found while reading, in records, and in finished cards, pages and sites; colours and
languages of which the tool knows nothing are found here already."""


def ids(findings):
    return [finding.rule.id for finding in findings]


def test_a_sound_course_gives_no_finding(small_course):
    assert check_course(small_course) == ()


def test_every_rule_of_the_course_is_found_by_one_check():
    found = [rule.id for check in CHECKS for rule in check.rules]
    wanted = [rule.id for rule in rules.RULES if not rule.id.startswith(LATER)]
    wanted += [rules.LOW_CONTRAST.id, rules.LANGUAGE_UNSPOKEN.id]
    assert sorted(found) == sorted(wanted)


def test_rule_ids_are_never_used_twice():
    assert len(rules.RULES_BY_ID) == len(rules.RULES)
    assert len({rule.name for rule in rules.RULES}) == len(rules.RULES)


def test_findings_come_in_order_of_path_line_and_rule(change_lesson):
    course = change_lesson("long-out", cues=LONG_CUE, ready_when=())
    course = change_lesson("hand-on-belly", course, cues=LONG_CUE)
    found = check_course(course)
    assert found == sort_findings(found)
    assert ids(found) == ["W104", "O109", "W104"]


def test_an_allowance_hides_its_finding_and_no_other(change_lesson):
    course = change_lesson(cues=LONG_CUE, ready_when=(), allowed={"W104": "it is sung"})
    assert ids(check_course(course)) == ["O109"]


def test_an_allowance_hides_nothing_in_other_lessons(change_lesson):
    course = change_lesson("long-out", cues=LONG_CUE)
    course = change_lesson("plain-count", course, cues=LONG_CUE, allowed={"W104": "it is sung"})
    assert [finding.place.path for finding in check_course(course)] == [
        course.by_id["long-out"].path
    ]


def test_an_allowance_that_hides_nothing_is_a_finding(change_lesson):
    (found,) = check_course(change_lesson(allowed={"T101": "a slow course"}))
    assert found.rule is rules.ALLOWANCE_UNUSED
    assert found.fact == "the lesson doesn't break T101 (cycle-out-of-band)"


@pytest.mark.parametrize("family", ["A", "C", "E", "G", "H", "K", "L", "U", "V", "X"])
def test_no_lesson_allows_itself_what_is_found_in_files_and_finished_pages(family):
    rules_of_it = [rule for rule in rules.RULES_BY_ID.values() if rule.id.startswith(family)]
    assert rules_of_it
    assert not [rule.id for rule in rules_of_it if may_be_allowed(rule)]


def test_an_allowance_that_could_have_no_effect_is_refused(change_lesson):
    (found,) = check_course(change_lesson(allowed={"C101": "printed on A4 only"}))
    assert found.rule is rules.ALLOWANCE_REFUSED
    assert found.fact == "no lesson may break C101 (card-overflow)"


def test_an_allowance_hides_its_own_lesson_and_rule_alone(change_lesson):
    course = change_lesson(allowed={"W104": "it is sung"})
    lesson, other = course.by_id["plain-count"], course.by_id["long-out"]
    kept = rules.CYCLE_OUT_OF_BAND.at(lesson.at("tempo"), "slow", "count faster")
    hidden = rules.LONG_CUE.at(lesson.at("cues"), "long", "shorten it")
    elsewhere = rules.LONG_CUE.at(other.at("cues"), "long", "shorten it")
    assert drop_allowed(course, (kept, hidden, elsewhere)) == (kept, elsewhere)


def test_stop_signs_may_not_be_allowed_away(change_lesson):
    course = change_lesson("short-hold", stop_if=(), allowed={"N107": "they know"})
    assert sorted(ids(check_course(course))) == ["H118", "N107"]


@pytest.mark.parametrize(
    "rule_id",
    [
        *("H101", "H111", "N101", "N105", "N107", "N108", "N109", "N110", "N112", "N114"),
        *("D103", "T103", "T104", "T105", "T108", "C105"),
    ],
)
def test_rules_that_keep_people_from_harm_may_not_be_allowed(rule_id):
    assert not may_be_allowed(rules.RULES_BY_ID[rule_id])


@pytest.mark.parametrize(
    ("reason", "refused"), [("x", 1), (" x ", 1), ("sung here", 0), ("sung on stage", 0)]
)
def test_an_allowance_has_a_reason_of_more_than_a_word(change_lesson, reason, refused):
    course = change_lesson(tempo=Tempo(12, 1, 12, 1), allowed={"T101": reason})
    found = check_course(course)
    assert [(f.fact, f.cure) for f in found if f.rule is rules.ALLOWANCE_REFUSED] == [
        (
            f'"{reason}" is no reason to break T101 (cycle-out-of-band)',
            "say why it harms nobody, in more than a word",
        )
    ] * refused


def test_a_finding_that_two_checks_make_is_told_once(small_course):
    lessons = tuple(
        replace(lesson, builds_on=("nobody", "nobody")) for lesson in small_course.lessons
    )
    found = check_course(replace(small_course, lessons=lessons))
    assert len(found) == len(set(found))
