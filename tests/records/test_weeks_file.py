"""Files for several weeks: read whole, or every fault told at once with its place."""

from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from builder.records.known import Known
from builder.records.weeks_file import read_weeks
from builder.records.weeks_order import Weekday, WeeksOrder, list_class_days

PATH = "program/courses/2026-11-24-winter.yml"
SOUND = """\
people: [C1, C2, C3]
minutes: 60
weeks: 4
weekdays: [thu, tue]
aim: [short-hold]
holidays: [2026-12-03, 2026-12-01]
"""


def read(text: str, known: Known) -> WeeksOrder:
    order, findings = read_weeks(text, PATH, known)
    assert findings == []
    assert order is not None
    return order


def test_a_sound_file_is_read_with_its_class_days(known: Known) -> None:
    order = read(SOUND, known)
    assert order.title == "2026-11-24-winter"
    assert order.weekdays == (Weekday.TUESDAY, Weekday.THURSDAY)
    assert order.aim == ("short-hold",)
    assert (order.retest_weeks, order.strands, order.coaches) == (2, (), ("coach",))
    assert order.holidays == (date(2026, 12, 1), date(2026, 12, 3))
    # By a calendar: Tuesdays 24.11., 1., 8. and 15.12., Thursdays two days later each.
    assert [day.isoformat()[5:] for day in order.days] == [
        "11-24", "11-26", "12-08", "12-10", "12-15", "12-17",
    ]  # fmt: skip


@pytest.mark.parametrize(
    ("old", "new", "says"),
    [
        ("[thu, tue]", "[thu, wed]", ':4:11: H113 value-out-of-range: the first day, 2026-11-24, '
         'is a "tue", on which there is no class; add it to the weekdays'),
        ("[thu, tue]", "[tue, tue]", ':4:17: H109 id-doubled: "tue" stands in "weekdays" again'),
        ("[thu, tue]", "[tuesday]", '"weekdays" number 1 is "tuesday"; write "tue"'),
        ("[thu, tue]", "[]", '"weekdays" is an empty list'),
        ("[thu, tue]", "[mon, tue, wed, thu, fri, sat]", '"weekdays" has 6; give at most 5.'),
        ("weeks: 4", "weeks: 27", '"weeks" is 27; give at most 26.'),
        ("weeks: 4", "weeks: 0", '"weeks" is 0; give at least 1.'),
        ("weeks: 4\n", "", '"weeks" is missing'),
        ("short-hold", "short-hodl", ':5:7: H110 name-unknown: "short-hodl" under "aim" is '
         'unknown; write "short-hold"'),
        ("[short-hold]", "[]", '"aim" is an empty list'),
        ("[short-hold]", "[short-hold, short-hold]", ':5:19: H109 id-doubled: "short-hold"'),
        ("aim:", "strands: [breath]\naim:", ':6:7: H113 value-out-of-range: "short-hold" is of '
         'the strand "count", which isn\'t worked on; add it to "strands", or aim elsewhere.'),
        ("2026-12-03", "2025-12-03", ":6:12: H113 value-out-of-range: 2025-12-03 is not between "
         "2026-11-24 and 2026-12-17, the last class; give a day between them, or leave it out."),
        ("2026-12-03", "2026-11-24", "2026-11-24 is the first day; rename the file"),
        ("2026-12-03", "2026-12-32", '"2026-12-32", not a date'),
        ("2026-12-03", "2026-12-01", ':6:24: H109 id-doubled: "2026-12-01"'),
        ("minutes: 60", "minutes: 60\nretest: 5", ":3:9: H113 value-out-of-range: a retest every "
         "5 weeks never comes in 4; give fewer weeks, or 0 for none."),
        ("C2", "C9", ':1:14: H110 name-unknown: "C9"'),
    ],
)  # fmt: skip
def test_every_fault_is_told_with_its_place(known: Known, old: str, new: str, says: str) -> None:
    assert old in SOUND
    order, findings = read_weeks(SOUND.replace(old, new, 1), PATH, known)
    lines = [str(finding) for finding in findings]
    assert order is None
    assert any(says in line for line in lines), lines
    assert all(line.startswith(f"{PATH}:") for line in lines)


def test_a_retest_may_be_left_out_or_none(known: Known) -> None:
    assert read(SOUND.replace("weeks: 4", "weeks: 1").split("holidays")[0], known).retest_weeks == 2
    assert read(f"{SOUND}retest: 0\n", known).retest_weeks == 0


@given(
    st.dates(date(2000, 1, 1), date(2199, 12, 31)),
    st.integers(1, 26),
    st.sets(st.sampled_from(Weekday), min_size=1, max_size=5),
)
def test_class_days_are_every_wanted_weekday_of_the_weeks(
    first: date, weeks: int, weekdays: set[Weekday]
) -> None:
    days = list_class_days(first, weeks, weekdays)
    assert len(days) == weeks * len(weekdays)
    assert list(days) == sorted(set(days))
    assert all(first <= day < first + timedelta(weeks=weeks) for day in days)
    # Second opinion: Python's own English names of days.
    assert {day.strftime("%a").lower() for day in days} == {str(each) for each in weekdays}


@given(st.text(max_size=200), st.text(max_size=40))
def test_any_text_gives_findings_or_an_order(known: Known, text: str, name: str) -> None:
    order, findings = read_weeks(text, f"courses/{name}.yml", known)
    assert (order is None) == bool(findings)


@given(
    st.integers(-1, 30),
    st.lists(st.sampled_from(["mon", "tue", "sun", "x", "1"]), max_size=6),
    st.lists(st.sampled_from(["2026-11-24", "2199-12-31", "9999-12-31", "0001-01-01", "x"])),
    st.sampled_from(["2026-11-24-a", "2199-12-31-a", "9999-12-31-a", "0001-01-01-a"]),
)
def test_any_weeks_and_days_give_findings_or_an_order(
    known: Known, weeks: int, weekdays: list[str], holidays: list[str], name: str
) -> None:
    text = (
        f"people: [C1]\nminutes: 60\naim: [short-hold]\nweeks: {weeks}\n"
        f"weekdays: [{', '.join(weekdays)}]\nholidays: [{', '.join(holidays)}]\n"
    )
    order, findings = read_weeks(text, f"courses/{name}.yml", known)
    assert (order is None) == bool(findings)
