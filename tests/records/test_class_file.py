"""Class files: read whole, or every fault told at once with its place."""

from dataclasses import replace
from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from builder.records.class_file import read_class
from builder.records.group_schema import MOST_ENTRIES, MOST_PEOPLE
from builder.records.known import Known
from builder.records.person import Person

PATH = "program/classes/2026-11-24-tuesday.yml"
SOUND = """\
people: [C3, C1]
minutes: 45
coaches: [Marit, Oren]
props: {ball: 4, mat: 0}
strands: [count]
blocks: 6
rest: 40
new: 1
note: The heating is off.
"""
SMALLEST = "people: [C1]\nminutes: 60\n"


def find(text: str, known: Known, path: str = PATH) -> list[str]:
    order, findings = read_class(text, path, known)
    assert (order is None) == bool(findings)
    return [str(finding) for finding in findings]


def test_a_sound_file_is_read_word_for_word(known: Known) -> None:
    order, findings = read_class(SOUND, PATH, known)
    assert findings == []
    assert order is not None
    assert (order.day, order.name, order.title) == (
        date(2026, 11, 24),
        "tuesday",
        "2026-11-24-tuesday",
    )
    assert (order.people, order.coaches) == (("C3", "C1"), ("Marit", "Oren"))
    assert (order.props, order.strands) == ({"ball": 4, "mat": 0}, ("count",))
    assert (order.minutes, order.most_blocks, order.rest_seconds, order.most_new) == (45, 6, 40, 1)
    assert (order.note, str(order.place)) == ("The heating is off.", f"{PATH}:1:1")


def test_what_is_left_out_has_its_default(known: Known) -> None:
    order, _ = read_class(SMALLEST, PATH, known)
    assert order is not None
    assert (order.coaches, order.props, order.strands, order.note) == (("coach",), {}, (), "")
    assert (order.most_blocks, order.rest_seconds, order.most_new) == (10, 60, 2)


@pytest.mark.parametrize(
    ("written", "coaches"),
    [("1", ("coach",)), ("3", ("coach 1", "coach 2", "coach 3")), ("Marit", ("Marit",))],
)
def test_coaches_are_names_or_their_number(
    known: Known, written: str, coaches: tuple[str, ...]
) -> None:
    order, _ = read_class(f"{SMALLEST}coaches: {written}\n", PATH, known)
    assert order is not None
    assert order.coaches == coaches


@pytest.mark.parametrize(
    ("old", "new", "says"),
    [
        ("[C3, C1]", "[C3, C11]", ':1:14: H110 name-unknown: "C11" under "people" is unknown; '
         'write "C1" if that is meant.'),
        ("[C3, C1]", "[C3, C4]", ':1:14: H110 name-unknown: "C4" under "people" has a row that '
         "can't be read; mend the row in the file of people first."),
        ("[C3, C1]", "[C3, c3]", ':1:14: H109 id-doubled: "C3" stands in "people" again'),
        ("[C3, C1]", "[C3, tavi]", ':1:14: H110 name-unknown: a name stands under "people", '
         'not an id; write "C2".'),
        ("[C3, C1]", "[C3, C3]", ':1:14: H109 id-doubled: "C3" stands in "people" again'),
        ("[C3, C1]", "[]", ':1:9: H113 value-out-of-range: "people" is an empty list'),
        ("[C3, C1]", "[1]", ':1:10: H106 wrong-type: "people" number 1 is 1, not text; give text'),
        ("[C3, C1]", "C1", ':1:9: H106 wrong-type: "people" is "C1", not a list'),
        ("people: [C3, C1]\n", "", ':1:1: H103 key-missing: "people" is missing'),
        ("minutes: 45\n", "", ':1:1: H103 key-missing: "minutes" is missing'),
        ("45", "9", ':2:10: H113 value-out-of-range: "minutes" is 9; give at least 10.'),
        ("45", "181", '"minutes" is 181; give at most 180.'),
        ("45", "an hour", '"minutes" is "an hour", not a whole number'),
        ("[Marit, Oren]", "0", ':3:10: H113 value-out-of-range: "coaches" is 0; give 1 to 12, '
         "or a list of names."),
        ("[Marit, Oren]", "[Oren, Oren]", ':3:17: H109 id-doubled: "Oren" stands in "coaches"'),
        ("[Marit, Oren]", "true", '"coaches" is true, not a list'),
        ("ball: 4", "bal: 4", ':4:9: H110 name-unknown: "bal" under "props" is unknown; '
         'write "ball"'),
        ("ball: 4", "ball: -1", ':4:15: H113 value-out-of-range: "ball" is -1; give at least 0.'),
        ("[count]", "[cuont]", ':5:11: H110 name-unknown: "cuont" under "strands" is unknown'),
        ("[count]", "[]", ':5:10: H113 value-out-of-range: "strands" is an empty list'),
        ("blocks: 6", "blocks: 21", '"blocks" is 21; give at most 20.'),
        ("rest: 40", "rest: 301", '"rest" is 301; give at most 300.'),
        ("new: 1", "new: 7", '"new" is 7; give at most 6.'),
        ("minutes: 45", "minuets: 45", ':2:1: H104 key-unknown: "minuets" is no key here; '
         'write "minutes" if that is meant.'),
        ("rest: 40", "minutes: 40", ":7:1: H105 key-doubled"),
    ],
)  # fmt: skip
def test_every_fault_is_told_with_its_place(known: Known, old: str, new: str, says: str) -> None:
    assert old in SOUND
    lines = find(SOUND.replace(old, new, 1), known)
    assert any(says in line for line in lines), lines
    assert all(line.startswith(f"{PATH}:") for line in lines)


def test_every_fault_of_a_file_is_told_at_once(known: Known) -> None:
    text = SOUND.replace("C1", "C9").replace("45", "5").replace("count", "cuont")
    lines = find(text.replace("mat", "mta"), known, "program/classes/tuesday.yml")
    assert [line.split(": ")[0].rpartition("yml:")[2] for line in lines] == [
        "1:1", "2:10", "1:14", "5:11", "4:18",
    ]  # fmt: skip


@pytest.mark.parametrize(
    ("name", "says"),
    [
        ("2026-02-30-monday", '"2026-02-30" in the file name is no day from 2000 to 2199'),
        ("0026-11-24-tuesday", "is no day from 2000 to 2199"),
        ("2026-11-24", "is no day with a name; name it such as 2026-11-24-tuesday.yml"),
        ("2026-11-24-Tuesday", "is no day with a name"),
        ("2026-11-24-a--b", "is no day with a name"),
        ("2026-11-24-a_b", "is no day with a name"),
        ("24-11-2026-tuesday", "is no day with a name"),
        ("２０２６-11-24-tuesday", "is no day with a name"),
        (f"2026-11-24-{'a' * 65}", "is no day with a name"),
        ("con", "is no day with a name"),
    ],
)
def test_a_file_name_is_a_day_and_a_name(known: Known, name: str, says: str) -> None:
    (line,) = find(SMALLEST, known, f"program/classes/{name}.yml")
    assert says in line


def test_a_leap_day_is_a_day(known: Known) -> None:
    assert find(SMALLEST, known, "classes/2028-02-29-tuesday.yml") == []


def test_more_people_than_a_coach_can_see_are_refused(known: Known) -> None:
    ids = [f"P{number}" for number in range(MOST_PEOPLE + 1)]
    many = replace(known, people={person_id: Person(person_id, "") for person_id in ids})
    order, findings = read_class(f"people: [{', '.join(ids)}]\nminutes: 60\n", PATH, many)
    assert order is None
    assert [finding.fact for finding in findings] == [f'"people" has {MOST_PEOPLE + 1}']


def test_an_id_in_other_capitals_is_the_one_on_record(known: Known) -> None:
    order, findings = read_class(SMALLEST.replace("C1", "c1"), PATH, known)
    assert findings == []
    assert order is not None
    assert order.people == ("C1",)


def test_without_readable_people_all_else_is_checked_and_no_class_comes_of_it(
    known: Known,
) -> None:
    nobody = Known(known.course, known.today, has_people=False)
    order, findings = read_class(SOUND.replace("mat", "mta"), PATH, nobody)
    assert order is None
    assert [finding.place.line for finding in findings] == [4]
    assert read_class(SOUND, PATH, nobody) == (None, [])


@given(st.text(max_size=200), st.text(max_size=40))
def test_any_text_gives_findings_or_a_class(known: Known, text: str, name: str) -> None:
    order, findings = read_class(text, f"classes/{name}.yml", known)
    assert (order is None) == bool(findings)


_VALUES = st.recursive(
    st.sampled_from(["C1", "count", "ball", "x", "", "1", "-3", "true", "null", "2026-11-24", "~"]),
    lambda inner: (
        st.lists(inner, max_size=3).map(lambda parts: f"[{', '.join(parts)}]")
        | st.lists(inner, max_size=2).map(
            lambda parts: "{" + ", ".join(f"k{i}: {part}" for i, part in enumerate(parts)) + "}"
        )
    ),
    max_leaves=6,
)
KEYS = ("people", "minutes", "coaches", "props", "strands", "blocks", "rest", "new", "note")


@given(st.dictionaries(st.sampled_from(KEYS), _VALUES))
def test_any_value_of_any_key_gives_findings_or_a_class(
    known: Known, values: dict[str, str]
) -> None:
    text = "".join(f"{key}: {value}\n" for key, value in values.items())
    order, findings = read_class(text, PATH, known)
    assert (order is None) == bool(findings)


def test_a_list_without_end_is_told_and_not_looked_through(known: Known) -> None:
    strands = ", ".join(f"s{number}" for number in range(30_000))
    lines = find(f"{SMALLEST}strands: [{strands}]\n", known)
    assert len(lines) == MOST_ENTRIES + 1
    assert any('"strands" has 30000; give at most 200.' in line for line in lines)
