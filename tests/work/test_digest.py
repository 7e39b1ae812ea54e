"""Digests of values, and how values are spelled for them."""

import os
import subprocess
import sys
from collections.abc import Mapping
from dataclasses import dataclass, fields, is_dataclass, replace
from datetime import date, datetime, time
from enum import Enum, StrEnum
from functools import cached_property
from types import MappingProxyType

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from builder.work.digest import digest, digest_value, spell, spell_fields
from tests.planning.starter import read_starter


@dataclass(frozen=True)
class Thing:
    name: object
    parts: object = ()

    @cached_property
    def length(self) -> int:
        return len(str(self.name))


@dataclass(frozen=True)
class Other:
    name: object
    parts: object = ()


class Kind(Enum):
    ONE = "one"
    TWO = "two"


class Word(StrEnum):
    ONE = "one"


TEXTS = st.sampled_from(
    ["", "a", "b", "a, b", "c, d", "a, d", "c, b", "'", '"', "\\", "}", "frozenset({'b', 'a'})"]
) | st.text(max_size=4)
PLAIN = st.one_of(
    *(TEXTS, st.none(), st.booleans(), st.binary(max_size=2), st.sampled_from([*Kind, *Word])),
    *(st.sampled_from([0, 8, 16, -1, 0.0, -0.0, 1e9]), st.dates(), st.times(), st.datetimes()),
)


def nest(part: st.SearchStrategy[object]) -> st.SearchStrategy[object]:
    few = st.lists(part, max_size=3)
    frozen = PLAIN | st.builds(Thing, PLAIN, st.frozensets(TEXTS, max_size=3))
    return st.one_of(
        *(few, few.map(tuple), st.frozensets(frozen, max_size=4), st.builds(Thing, part, part)),
        *(st.builds(Other, part, part), st.dictionaries(PLAIN, part, max_size=3)),
        st.dictionaries(TEXTS, part, max_size=2).map(MappingProxyType),
    )


VALUES = st.recursive(PLAIN, nest, max_leaves=8)


def tell(value: object) -> object:
    """Say a value in other terms: of two that differ, what is said differs, types and all."""
    kind = type(value)
    if isinstance(value, Enum):
        return kind, value.name
    if isinstance(value, frozenset):
        return kind, frozenset(map(tell, value))
    if is_dataclass(value):
        return kind, tuple(tell(getattr(value, field.name)) for field in fields(value))
    if isinstance(value, Mapping):
        return kind, tuple((tell(key), tell(part)) for key, part in value.items())
    if isinstance(value, tuple | list):
        return kind, tuple(map(tell, value))
    return kind, repr(value)


@given(VALUES, VALUES)
@settings(max_examples=300)
def test_two_values_are_spelled_alike_only_where_they_are_alike(one: object, two: object) -> None:
    assert (spell(one) == spell(two)) == (tell(one) == tell(two))


@given(st.lists(TEXTS, min_size=2, max_size=4), st.lists(TEXTS, min_size=2, max_size=4))
def test_no_two_sets_of_texts_are_spelled_alike(one: list[str], two: list[str]) -> None:
    assert (spell(frozenset(one)) == spell(frozenset(two))) == (set(one) == set(two))


@given(st.lists(st.sampled_from([0, 8, 16, 24, "x", (8, 16)]), max_size=5))
def test_a_set_is_spelled_alike_whatever_came_into_it_first(members: list[object]) -> None:
    backwards = frozenset(reversed(members))
    assert spell(Thing(frozenset(members))) == spell(Thing(backwards))


def test_commas_in_the_members_of_a_set_are_not_mixed_up() -> None:
    assert spell(frozenset({"a, b", "c, d"})) != spell(frozenset({"a, d", "c, b"}))
    assert spell(frozenset({"}", "a"})) == "frozenset({'a', '}'})"


@pytest.mark.parametrize("seed", ["1", "2", "3"])
def test_a_set_is_spelled_alike_in_every_process(seed: str) -> None:
    asked = "from builder.work.digest import spell; print(spell((frozenset('}bca,'), 1)))"
    environment = {**os.environ, "PYTHONHASHSEED": seed}
    said = subprocess.run(
        [sys.executable, "-c", asked], env=environment, capture_output=True, text=True, check=True
    ).stdout
    assert said == "(frozenset({',', 'a', 'b', 'c', '}'}), 1)\n"


def spell_every_part(value: object) -> str:
    """Spell a value part by part and never in one go, of the kinds that are known to be told whole.

    What is of another kind fails, so that no field of a course can be one that isn't told.
    """
    kind = type(value).__qualname__
    if is_dataclass(value):
        told = (f"{f.name}={spell_every_part(getattr(value, f.name))}" for f in fields(value))
        return f"{kind}({', '.join(told)})"
    if isinstance(value, dict):
        items = (f"{spell_every_part(k)}: {spell_every_part(v)}" for k, v in value.items())
        return f"{{{', '.join(items)}}}"
    if isinstance(value, MappingProxyType):
        return f"mappingproxy({spell_every_part(dict(value))})"
    if isinstance(value, frozenset):
        return f"frozenset({{{', '.join(sorted(map(spell_every_part, value)))}}})" * bool(
            value
        ) or ("frozenset()")
    if isinstance(value, tuple):
        return f"({', '.join(map(spell_every_part, value))}{',' * (len(value) == 1)})"
    assert value is None or isinstance(value, str | int | float | Enum | date | time), kind
    return repr(value)


def test_the_quick_way_tells_of_a_course_what_each_part_of_it_tells() -> None:
    course = read_starter()
    assert spell(course) == spell_every_part(course)


DIFFERENT = [
    *(None, 0, False, 0.0, "", b"", (), [], {}, frozenset()),
    *("ab", b"ab", ("a", "b"), ["a", "b"], ("ab",), frozenset({"ab"}), {"a": "b"}, ("a", ("b",))),
    *(date(2026, 1, 1), datetime(2026, 1, 1), "datetime.date(2026, 1, 1)"),
    *({"a": 1, "b": 2}, {"b": 2, "a": 1}),
    *(Thing("a"), Thing("a", ("b",)), ("a", ())),
]


def test_different_values_have_different_digests() -> None:
    assert len({digest_value(each) for each in DIFFERENT}) == len(DIFFERENT)


def test_parts_never_run_into_each_other() -> None:
    assert digest("a", "bc") != digest("ab", "c") != digest("abc")
    assert spell_fields(Thing("a\nb"), ["name"]) == "name='a\\nb'"


def test_what_a_value_worked_out_for_itself_does_not_count() -> None:
    thing = Thing("a")
    before = digest_value(thing)
    assert thing.length == 1
    assert digest_value(thing) == before


@pytest.mark.parametrize("unknown", [object(), lambda: 0])
def test_an_unknown_kind_of_value_is_refused_and_not_left_out(unknown: object) -> None:
    with pytest.raises(TypeError, match="no digest is known for a"):
        digest_value(Thing("a", (unknown,)))


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
