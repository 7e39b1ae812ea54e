"""Measures: which way each goes as people get on."""

import pytest

from builder.course.vocabulary import Better
from builder.findings import Finding
from builder.reading.course_folder import read_course
from tests.conftest import SMALL_COURSE, WriteCourse

COURSE = "content/course.yml"
HOLD = "breath-hold-seconds: {title: comfortable hold, unit: s}"


def read_measure(write_course: WriteCourse, line: str) -> tuple[Better | None, list[Finding]]:
    text = (SMALL_COURSE / COURSE).read_text(encoding="utf-8")
    reading = read_course(write_course({COURSE: text.replace(HOLD, f"{HOLD}\n  seen: {line}")}))
    course = reading.course
    return course and course.vocabulary.measures["seen"].better, list(reading.findings)


@pytest.mark.parametrize(
    ("line", "better"),
    [
        ("{title: x, unit: cm}", Better.MORE),
        ("{title: x, unit: cm, better: less}", Better.LESS),
        ("{title: x, unit: beats a minute, better: none}", Better.NONE),
        ('{title: x, unit: "even, left first or right first"}', Better.NONE),
        ('{title: x, unit: "even, left first or right first", better: none}', Better.NONE),
    ],
)
def test_numbers_go_up_unless_the_course_says_otherwise(
    write_course: WriteCourse, line: str, better: Better
) -> None:
    assert read_measure(write_course, line) == (better, [])


def test_words_are_never_better(write_course: WriteCourse) -> None:
    _, (finding,) = read_measure(write_course, '{title: x, unit: "low or high", better: more}')
    assert str(finding).endswith(
        'better "more" is for numbers, and "low or high" are words; leave it out.'
    )
    assert finding.rule.id == "H113"


def test_another_way_is_refused(write_course: WriteCourse) -> None:
    _, (finding,) = read_measure(write_course, "{title: x, unit: cm, better: fewer}")
    assert '"more", "less" or "none"' in str(finding)
