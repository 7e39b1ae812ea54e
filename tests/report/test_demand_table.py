"""The demand table: every lesson, its ranks, and what rises."""

import json
from collections.abc import Callable
from datetime import date
from pathlib import Path

import pytest

from builder.course.course import Course
from builder.reading.course_folder import read_course
from builder.report.demand_table import list_demands, write_demand_json, write_demand_table

WriteCourse = Callable[..., Path]


@pytest.fixture
def course(write_course: WriteCourse) -> Course:
    path = "content/lessons/count/long-out.md"
    root = write_course()
    text = (root / path).read_text(encoding="utf-8")
    (root / path).write_text(text.replace("4-1-6-1", "6-1-9-1"), encoding="utf-8")
    read = read_course(root, today=date(2026, 11, 1)).course
    assert read is not None
    return read


def test_the_table_marks_rises_and_jumps(course: Course) -> None:
    assert write_demand_table(course).split("\n") == [
        "level  lesson         position  tempo  hold  load  range  limbs  rotation  balance",
        "",
        "Breath",
        "1      hand-on-belly        0      0     0     0      0      0         0        0",
        "2      wide-ribs            0      0     0     0      0      0         0        0",
        "",
        "Count",
        "1      plain-count          0      1+    0     0      0      0         0        0",
        "2      long-out             0      4!    0     0      0      0         0        0",
        "2      short-hold           0      2+    1+    0      0      0         0        0",
        "",
        "0 asks least. + one more than the lessons it builds on, ! a jump of two or more. "
        "At most two may rise at once.",
    ]


def test_json_tells_the_same(course: Course) -> None:
    report = json.loads(write_demand_json(course))
    assert report["axes"][0] == "position"
    rows = {row["lesson"]: row for row in report["lessons"]}
    assert rows["long-out"]["rises"] == {"tempo": 3}
    assert rows["short-hold"]["demand"]["hold"] == 1
    assert rows["plain-count"]["strand"] == "count"


def test_first_lessons_rise_over_nothing(course: Course) -> None:
    assert list_demands(course)[0].rises == {}
