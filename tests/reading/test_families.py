"""Families of positions: what a class can move among without a stop."""

import pytest

from builder.checks.run import check_course
from builder.course.course import Course
from builder.reading.course_folder import read_course
from builder.report.draft import draft_course
from builder.resources import find_starter
from tests.conftest import SMALL_COURSE, WriteCourse

PATH = "content/course.yml"
FAMILIES = "families:\n  up: {title: sitting up}\n  down: {title: lying down}\npositions:\n"


def write_families(sitting: str, families: str = FAMILIES) -> dict[str, str]:
    text = (SMALL_COURSE / PATH).read_text("utf-8")
    text = text.replace("rank: 1}\nprops", f"rank: 1{sitting}}}\nprops", 1)
    return {PATH: text.replace("positions:\n", families, 1)}


@pytest.fixture(scope="module")
def starter() -> Course:
    course = read_course(find_starter().parent).course
    assert course is not None
    return course


def test_without_families_each_position_is_its_own_by_rank(write_course: WriteCourse) -> None:
    course = read_course(write_course()).course
    assert course is not None
    words = course.vocabulary
    assert {each.id: each.family for each in words.positions.values()} == {
        "supine": "supine",
        "sitting": "sitting",
    }
    assert list(words.families.items()) == [
        ("supine", "lying on the back"),
        ("sitting", "sitting"),
    ]


def test_named_families_keep_the_order_of_the_file(write_course: WriteCourse) -> None:
    reading = read_course(write_course(write_families(", family: up")))
    assert reading.findings == ()
    assert reading.course is not None
    words = reading.course.vocabulary
    assert words.positions["sitting"].family == "up"
    assert words.positions["supine"].family == "supine"
    assert list(words.families) == ["up", "down", "supine"]


@pytest.mark.parametrize(
    ("family", "families", "says"),
    [
        (", family: upp", FAMILIES,
         '16:46: H110 name-unknown: "upp" under "family" is unknown; write "up" if that is meant.'),
        (", family: up", "positions:\n",
         '13:46: H110 name-unknown: "up" under "family" is unknown; leave it out: none is known.'),
        (", family: Up", FAMILIES, '16:46: H108 id-malformed: "family" is "Up"'),
        (", family: 3", FAMILIES, '16:46: H106 wrong-type: "family" is 3, not text'),
        ("", FAMILIES.replace("{title: sitting up}", "{titel: sitting up}"), "H104 key-unknown"),
    ],
)  # fmt: skip
def test_a_fault_in_a_family_is_told_with_its_place(
    write_course: WriteCourse, family: str, families: str, says: str
) -> None:
    found = read_course(write_course(write_families(family, families))).findings
    assert any(str(finding).startswith(f"{PATH}:") and says in str(finding) for finding in found)


def test_families_of_the_starter_hold_every_position(starter: Course) -> None:
    words = starter.vocabulary
    members = {
        family: [each.id for each in words.positions.values() if each.family == family]
        for family in words.families
    }
    assert members == {
        "lying": ["supine", "side-lying", "prone"],
        "kneeling": ["all-fours", "rest-pose", "kneeling", "half-kneeling"],
        "upright": ["sitting", "standing"],
    }


def test_titles_of_families_are_for_coaches_and_are_not_translated(starter: Course) -> None:
    titles = starter.vocabulary.families.values()
    assert not any(f'"{title}"' in draft_course(starter) for title in titles)
    found = [finding for finding in check_course(starter) if finding.rule.id == "G101"]
    assert found == []
    assert starter.translations["es"].vocabulary.families == starter.vocabulary.families
