"""The demo program holds together: order, cautions, doses, rests and readings fit each other."""

from collections.abc import Callable, Iterator
from datetime import date, timedelta
from pathlib import Path

import pytest
import yaml

from builder.records.record_folder import read_records as read_program
from tests.demo.oracle import (
    FOLDER,
    ROOT,
    RULES,
    Records,
    Row,
    find_broken_order,
    find_forbidden,
    find_hasty_rests,
    find_long_holds,
    find_odd_results,
    find_unknown_names,
    find_unlikely_readiness,
    find_wrong_days,
    find_wrong_doses,
    read_records,
    read_rows,
    the_course,
)

TODAY = date(2026, 11, 24)
"""The day on which the demo is looked at."""


@pytest.mark.parametrize("find_faults", RULES, ids=lambda rule: rule.__name__)
def test_the_demo_program_holds_together(find_faults: Callable[[Records], Iterator[str]]) -> None:
    assert list(find_faults(read_records())) == []


def first(rows: list[Row], **wanted: str) -> Row:
    """Return the first row with these cells, its names written with underlines."""
    cells = {name.replace("_", " "): value for name, value in wanted.items()}
    return next(row for row in rows if cells.items() <= row.items())


def last(rows: list[Row], **wanted: str) -> Row:
    return first(rows[::-1], **wanted)


SPOILT: dict[str, tuple[Callable[[Records], Iterator[str]], Callable[[Records], object]]] = {
    "a person who isn't there": (
        find_unknown_names,
        lambda records: first(records.attendance, person="C3").update(person="C33"),
    ),
    "a lesson of another course": (
        find_unknown_names,
        lambda records: first(records.attendance, lesson="box").update(lesson="big-box"),
    ),
    "a class on a Sunday": (
        find_wrong_days,
        lambda records: records.attendance[-1].update(date="2026-11-22"),
    ),
    "a reading of somebody who stayed at home": (
        find_wrong_days,
        lambda records: last(records.results, person="C5").update(person="C4"),
    ),
    "a diagonal on the first day": (
        find_broken_order,
        lambda records: first(records.attendance, date="2026-09-15", person="C6").update(
            lesson="diagonal"
        ),
    ),
    "a step that was never shown twice": (
        find_broken_order,
        lambda records: [
            row.update(outcome="again") for row in records.history("C5", "all-round-breath")
        ],
    ),
    "a tuck with a sore back": (
        find_forbidden,
        lambda records: last(records.attendance, person="C8").update(lesson="tail-tuck"),
    ),
    "a clinician asked a month later": (
        find_forbidden,
        lambda records: records.person("C1").update(cleared="pregnancy 2026-10-10"),
    ),
    "a hold with high blood pressure": (
        find_forbidden,
        lambda records: last(records.attendance, person="C2").update(lesson="comfortable-hold"),
    ),
    "ready with a breath too few": (
        find_wrong_doses,
        lambda records: first(records.attendance, lesson="belly-breath", outcome="ready").update(
            {"breaths done": "11"}
        ),
    ),
    "a rest that shortens too soon": (
        find_hasty_rests,
        lambda records: records.history("C5", "belly-breath")[1].update({"rest seconds": "27"}),
    ),
    "a rest that shortens by a fifth": (
        find_hasty_rests,
        lambda records: records.history("C6", "diagonal")[-1].update({"rest seconds": "43"}),
    ),
    "a reach without a side": (
        find_odd_results,
        lambda records: first(records.results, measure="reach-cm").update(side=""),
    ),
    "a hold in another lesson": (
        find_odd_results,
        lambda records: first(records.results, measure="breath-hold-seconds").update(lesson="box"),
    ),
    "steady for a whole set, and yet not ready": (
        find_unlikely_readiness,
        lambda records: first(records.results, measure="steady-breaths", person="C3").update(
            value="9"
        ),
    ),
    "one side slow after the slow side was shown": (
        find_unlikely_readiness,
        lambda records: last(records.results, measure="rib-sides", person="C5").update(
            value="right first"
        ),
    ),
    "a box with a short hold": (
        find_long_holds,
        lambda records: [
            row.update(value="7")
            for row in records.results
            if row["measure"] == "breath-hold-seconds"
        ],
    ),
}


@pytest.mark.parametrize("name", SPOILT)
def test_a_spoilt_row_is_found(name: str) -> None:
    find_faults, spoil = SPOILT[name]
    records = read_records()
    spoil(records)
    assert list(find_faults(records)) != []


def test_every_rule_has_a_row_that_breaks_it() -> None:
    assert {find_faults for find_faults, _ in SPOILT.values()} == set(RULES)


def test_one_side_reaches_less_far_and_catches_up() -> None:
    records = read_records()
    sides = [records.readings("C7", "reach-cm", side) for side in ("left", "right")]
    gaps = [left[0] - right[0] for left, right in zip(*(s.values() for s in sides), strict=True)]
    assert gaps[0] >= 5
    assert abs(gaps[-1]) <= 1
    assert gaps == sorted(gaps, reverse=True)


def test_one_hold_grows_beyond_a_fifth_and_one_only_scatters() -> None:
    """A fifth is ours, from a scatter of 6 ± 4 % (Trembach and Zabolotskikh 2017)."""
    records = read_records()
    grows, scatters = records.best_holds("C5"), records.best_holds("C6")
    assert grows[-1] > 1.2 * grows[0]
    assert max(scatters) < 1.2 * min(scatters)
    assert scatters not in (sorted(scatters), sorted(scatters, reverse=True))
    assert all(
        len(trials) == 3 for trials in records.readings("C5", "breath-hold-seconds").values()
    )


def test_people_learn_at_their_own_pace() -> None:
    """Somebody is stuck, somebody went back, somebody stayed away for over six weeks."""
    records = read_records()
    assert records.letters("C3", "tail-tuck").endswith("aaa")
    assert "ee" in records.letters("C2", "brace-and-breathe")
    last_days = {row["person"]: date.fromisoformat(row["date"]) for row in records.attendance}
    away = {name for name, day in last_days.items() if TODAY - day > timedelta(weeks=6)}
    assert away == {"C4"}


@pytest.mark.parametrize(
    ("person", "strands"),
    [
        ("C5", {"breath", "brace"}),
        ("C6", {"front-line", "back-line"}),
        ("C7", {"front-line", "all-fours"}),
    ],
)
def test_everybody_is_where_the_course_would_have_them(person: str, strands: set[str]) -> None:
    course, records = the_course(), read_records()
    lessons = {row["lesson"] for row in records.attendance if row["person"] == person}
    shown = {name for name in lessons if "rr" in records.letters(person, name)}
    order = list(course.vocabulary.strands)
    furthest = max((course.by_id[name].strand.id for name in shown), key=order.index)
    assert furthest in strands


def test_the_pregnant_client_seldom_lies_on_the_floor() -> None:
    course, records = the_course(), read_records()
    rows = [row for row in records.attendance if row["person"] == "C1"]
    lying = [row for row in rows if "supine" in course.traits_by_lesson[row["lesson"]]]
    floor = [row for row in rows if "floor-transfer" in course.traits_by_lesson[row["lesson"]]]
    assert len(lying) <= 2
    assert len(floor) <= len(rows) / 3


def test_there_are_rows_enough_to_plan_with() -> None:
    records = read_records()
    assert 150 <= len(records.attendance) <= 420
    assert {row["person"] for row in records.attendance} == {f"C{n}" for n in range(1, 9)}


def test_the_records_are_read_without_a_finding() -> None:
    reading, records = read_program(FOLDER, the_course(), today=TODAY), read_records()
    assert [str(finding) for finding in reading.findings] == []
    assert len(reading.program.people) == len(records.people) == 10
    assert len(reading.program.attendance) == len(records.attendance)
    assert len(reading.program.results) == len(records.results)


ORDERS = sorted([*FOLDER.glob("classes/*.yml"), *FOLDER.glob("courses/*.yml")])


@pytest.mark.parametrize("path", ORDERS, ids=lambda path: path.stem)
def test_classes_name_who_and_what_there_is(path: Path) -> None:
    order = yaml.safe_load(path.read_text(encoding="utf-8"))
    words, ids = the_course().vocabulary, {row["id"] for row in read_rows("people.csv")}
    assert {*order["people"], *order["coaches"]} <= ids
    assert set(order["props"]) <= set(words.props)
    assert set(order.get("strands", ())) <= set(words.strands)
    assert set(order.get("aim", ())) <= set(the_course().by_id)
    assert date.fromisoformat(path.stem[:10]) >= TODAY


def test_the_three_classes_are_of_three_sizes() -> None:
    orders = [yaml.safe_load(path.read_text(encoding="utf-8")) for path in ORDERS[:3]]
    sizes = [(len(one["people"]), one["minutes"], len(one["coaches"])) for one in orders]
    assert sizes == [(8, 60, 2), (4, 45, 1), (6, 60, 1)]
    assert all(one["props"]["ball"] < len(one["people"]) for one in orders)


def test_names_of_clients_stand_nowhere_in_the_course() -> None:
    whole = [row["display name"] for row in read_rows("people.csv")]
    names = {*whole, *(part for name in whole for part in name.split() if len(part) > 3)}
    files = [path for path in (ROOT / "content").rglob("*") if path.is_file()]
    text = "".join(path.read_text(encoding="utf-8") for path in files)
    assert len(names) > 25
    assert [name for name in sorted(names) if name in text] == []
    paths = [path.name for path in FOLDER.rglob("*")]
    assert [path for path in paths if any(name in path for name in names)] == []
