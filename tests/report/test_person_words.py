"""A person in words: calm sentences, scatter named, what is ours said to be."""

import json
import re

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from builder.planning.overview import survey_person
from builder.planning.trends import find_trends
from builder.planning.weaker_side import compare_person_sides
from builder.records.attendance import Attendance
from builder.records.program import Program
from builder.records.result import Result, Side
from builder.report.days import say_day
from builder.report.person_json import write_person_json
from builder.report.person_words import write_person
from builder.report.trend_words import say_sides, say_trend, say_trends
from tests.planning.rows import do, list_rows, on
from tests.planning.starter import make_person, make_result, read_starter

HOLD = "breath-hold-seconds"
TURN = "side-lying-rotation-hold"
ROWS = (
    *do("ready-to-start", "r"),
    *do("hands-check-sitting", "r"),
    *do("hands-check-lying", "r"),
    *do("belly-breath", "aaa"),
)
RESULTS = (
    *(make_result(HOLD, value, "comfortable-hold", on(0)) for value in (9, 11)),
    *(make_result(HOLD, value, "comfortable-hold", on(14)) for value in (14, 13)),
    *(
        Result(on(14), "ro-1", "reach-cm", side, gap, "cm", TURN)
        for side, gap in zip(Side, (15, 9), strict=True)
    ),
)


def say(measure: str, *values: float | str) -> str:
    rows = [make_result(measure, value, day=on(14 * n)) for n, value in enumerate(values)]
    (trend,) = find_trends(read_starter(), rows)
    return say_trend(read_starter(), trend)


def write(*conditions: str) -> str:
    person = make_person(*conditions)
    program = Program({person.id: person}, RESULTS, ROWS)
    return write_person(read_starter(), survey_person(read_starter(), program, person, on(30)))


@pytest.mark.parametrize(
    ("measure", "values", "said"),
    [
        (
            HOLD,
            (11, 14),
            "comfortable hold: 14 s, was 11 s on 5 Jan 2026: "
            "longer, by at least its usual scatter of a fifth",
        ),
        (
            HOLD,
            (10, 11),
            "comfortable hold: 11 s, was 10 s on 5 Jan 2026: within its usual scatter of a fifth",
        ),
        (HOLD, (10,), "comfortable hold: 10 s on 5 Jan 2026, one day so far"),
        (
            HOLD,
            (10, 16, 9),
            "comfortable hold: 9 s, was 10 s on 5 Jan 2026: within its usual scatter of a fifth; "
            "since 19 Jan 2026 (16 s) shorter, by at least its usual scatter of a fifth; "
            "best so far 16 s on 19 Jan 2026",
        ),
        (
            "longest-cycle-seconds",
            (8, 9),
            "longest easy breath: 9 s, was 8 s on 5 Jan 2026: no rule says what would be a change",
        ),
        (
            "reach-cm",
            (12, 9),
            "gap left to the floor: 9 cm, was 12 cm on 5 Jan 2026: "
            "smaller, more than its usual scatter of 2 cm (ours)",
        ),
        (
            "rib-sides",
            ("left first", "even"),
            "how the sides widen: even on 19 Jan 2026, was left first on 5 Jan 2026",
        ),
    ],
)
def test_a_trend_is_one_plain_sentence(
    measure: str, values: tuple[float | str, ...], said: str
) -> None:
    assert say(measure, *values) == said


def test_a_first_trial_held_against_a_first_one_is_said() -> None:
    rows = [make_result(HOLD, 10, day=on(0))]
    rows += [make_result(HOLD, value, day=on(14)) for value in (10, 13)]
    (trend,) = find_trends(read_starter(), rows)
    assert say_trend(read_starter(), trend).endswith(
        "(the first trial of each day compared; best of the newest day 13 s)"
    )


def test_lessons_read_on_one_day_share_a_line() -> None:
    rows = [make_result("steady-breaths", 5, name, on(0)) for name in ("belly-breath", "box")]
    said = list(say_trends(read_starter(), find_trends(read_starter(), rows)))
    assert said == [
        'steady breaths in a row, on one day each: 5 breaths in "Belly breath" on 5 Jan 2026; '
        '5 breaths in "Box breathing" on 5 Jan 2026'
    ]


def test_sides_are_said_with_their_formula() -> None:
    (found,) = compare_person_sides(read_starter(), RESULTS)
    assert say_sides(read_starter(), found) == (
        "gap left to the floor on 19 Jan 2026: left 15 cm, right 9 cm, 6 cm apart "
        "(larger - smaller; alike up to 2 cm, ours); "
        "the left side starts and gets one set more (ours)"
    )


def test_the_page_says_all_in_order_with_cautions_and_sources() -> None:
    text = write("reflux")
    titles = ("Conditions", "Strands", "Sides", "Measures", "Look at next", "Measure again")
    places = [text.index(f"\n{title}\n") for title in (*titles, "Sources")]
    assert places == sorted(places)
    assert text.index(read_starter().settings.caution) < places[0]
    assert "clears nobody: local rules and licensed clinicians come first" in text
    assert "- reflux: no clinician's answer on record; what the notices say holds" in text
    assert (
        '- Where the breath goes: stay with "Belly breath": it isn\'t ready yet; it was again 3'
        in text
    )
    assert "Trembach and Zabolotskikh 2017" in text
    assert "a hold has changed from 20 % on" in text.split("Ours, with no published source")[1]


def test_a_barred_strand_says_why() -> None:
    text = write("pregnancy")
    assert "- pregnancy: no clinician's answer on record; a licensed clinician comes first" in text
    line = next(row for row in text.split("\n") if row.startswith("- Where the breath goes"))
    assert line == (
        '- Where the breath goes: wait: "Belly breath" barred: '
        "no clinician's answer on record for pregnancy: a licensed clinician comes first"
    )


def test_no_sentence_speaks_of_health_or_judges() -> None:
    """Words that a coach's page must not say of a person; the list is ours."""
    words = (
        r"\b(diagnos|treat|cure|heal|patholog|abnormal|deficit|imbalance|oxygen|CO2|fail|bad)\w*"
    )
    for conditions in ((), ("reflux",), ("pregnancy",)):
        own = write(*conditions).split("\nSources\n")[0]
        assert re.findall(words, own, re.IGNORECASE) == []


def test_json_tells_the_same() -> None:
    person = make_person()
    overview = survey_person(
        read_starter(), Program({person.id: person}, RESULTS, ROWS), person, on(30)
    )
    report = json.loads(write_person_json(read_starter(), overview))
    assert (report["person"], report["day"]) == ("ro-1", "2026-02-04")
    breath = report["strands"][1]
    assert (breath["direction"], breath["lesson"]) == ("stay", "belly-breath")
    assert [reason["kind"] for reason in breath["reasons"]] == ["not-yet", "stuck"]
    (hold, *_) = report["trends"]
    assert hold["from_first"]["change"] == "grew"
    assert report["sides"][0]["weaker"] == "left"
    text = write_person(read_starter(), overview)
    assert all(f"- {each['says']}" in text for each in report["strands"] + report["sides"])


def test_days_are_written_alike_everywhere() -> None:
    assert [say_day(on(day)) for day in (0, 27, 361)] == ["5 Jan 2026", "1 Feb 2026", "1 Jan 2027"]


NUMBERS = st.floats(-5, 1e6) | st.integers(0, 60).map(float)
READINGS = st.builds(
    Result,
    st.integers(0, 90).map(on),
    st.just("ro-1"),
    st.sampled_from([*read_starter().vocabulary.measures, "known", "gone"]),
    st.sampled_from([None, *Side]),
    NUMBERS | st.sampled_from(["left first", "even", "both", "?"]),
    lesson_id=st.sampled_from(["", TURN, "comfortable-hold", "gone"]),
)


@settings(max_examples=40)
@given(
    st.lists(READINGS, max_size=30),
    list_rows(span=90),
    st.lists(st.sampled_from([*read_starter().vocabulary.conditions]), unique=True, max_size=2),
)
def test_whatever_is_on_record_can_be_said(
    results: list[Result], rows: list[Attendance], conditions: list[str]
) -> None:
    person = make_person(*conditions)
    program = Program({person.id: person}, tuple(results), tuple(rows))
    overview = survey_person(read_starter(), program, person, on(60))
    assert json.loads(write_person_json(read_starter(), overview))["person"] == "ro-1"
    said = write_person(read_starter(), overview)
    assert "None" not in said
    assert "  " not in said
