"""Digests of values."""

import subprocess
import sys
from dataclasses import dataclass, replace
from datetime import date, datetime
from functools import cached_property

import pytest

from builder.work.digest import digest_value
from tests.planning.starter import read_starter


@dataclass(frozen=True)
class Thing:
    name: str
    parts: tuple[object, ...] = ()

    @cached_property
    def length(self) -> int:
        return len(self.name)


DIFFERENT = [
    *(None, 0, False, 0.0, "", b"", (), {}, frozenset()),
    *("ab", b"ab", ("a", "b"), ("ab",), frozenset({"ab"}), {"a": "b"}, ("a", ("b",))),
    *(date(2026, 1, 1), datetime(2026, 1, 1), "datetime.date(2026, 1, 1)"),
    *({"a": 1, "b": 2}, {"b": 2, "a": 1}),
    *(Thing("a"), Thing("a", ("b",)), ("a", ())),
]


def test_different_values_have_different_digests() -> None:
    assert len({digest_value(each) for each in DIFFERENT}) == len(DIFFERENT)


def test_what_a_value_worked_out_for_itself_does_not_count() -> None:
    thing = Thing("a")
    before = digest_value(thing)
    assert thing.length == 1
    assert digest_value(thing) == before


def test_an_unknown_kind_of_value_is_refused_and_not_left_out() -> None:
    with pytest.raises(TypeError, match="no digest is known for a object"):
        digest_value(Thing("a", (object(),)))


def test_a_course_has_the_same_digest_in_every_process() -> None:
    script = (
        "from tests.planning.starter import read_starter; "
        "from builder.work.digest import digest_value; print(digest_value(read_starter()))"
    )
    said = subprocess.run(
        [sys.executable, "-c", script], capture_output=True, text=True, check=True
    ).stdout.strip()
    course = read_starter()
    assert digest_value(course) == said
    (first, *others) = course.notices
    changed = replace(course, notices=(replace(first, short=f"{first.short}."), *others))
    assert digest_value(changed) != said
