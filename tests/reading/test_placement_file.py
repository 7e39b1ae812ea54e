"""The placement table: read whole, or every fault told with its place."""

from dataclasses import replace
from datetime import date
from pathlib import Path

import pytest

from builder.course.vocabulary import Measure
from builder.reading.course_folder import read_course
from builder.reading.evidence import PlacementNames
from builder.reading.placement_file import read_placement

TODAY = date(2026, 11, 20)
PATH = "content/placement.yml"
NAMES = PlacementNames(
    strands={"breath": frozenset({"belly-breath"}), "tempo": frozenset({"even-count"})},
    measures={
        "mover": Measure("mover", "what moves", "chest, belly or both"),
        "hold-s": Measure("hold-s", "hold", "s"),
        "reach": Measure("reach", "reach", "cm", has_sides=True),
    },
    measured_in={
        "belly-breath": frozenset({"mover", "reach"}),
        "even-count": frozenset({"hold-s"}),
    },
    conditions={"sore-knees": None, "unsteady": None},
    traits={"knee-load": None, "wrist-load": None},
)
SOUND = """\
ask_first: [You feel ill today]
questions:
  - {id: moves, text: First?, lesson: belly-breath, answers: {belly: Belly, chest: Chest}}
  - {id: hold, text: How long?, timed: true}
start:
  - strand: tempo
    ways:
      - {when: {moves: [chest], hold: {under: 8}}, why: Not yet.}
      - {lesson: even-count, why: The first count.}
"""


def find(text: str) -> list[str]:
    table, findings = read_placement(text, PATH, NAMES, TODAY)
    assert (table is None) == bool(findings)
    return [str(finding) for finding in findings]


def test_a_sound_table_is_read() -> None:
    table, findings = read_placement(SOUND, PATH, NAMES, TODAY)
    assert findings == []
    assert table is not None
    assert table.ask_first == ("You feel ill today",)
    assert [question.is_timed for question in table.questions] == [False, True]
    first, last = table.starts[0].ways
    assert [c.question_id for c in first.conditions] == ["moves", "hold"]
    assert (first.conditions[1].under_seconds, first.lesson_id) == (8, "")
    assert (last.conditions, last.lesson_id) == ((), "even-count")


@pytest.mark.parametrize(
    ("old", "new", "says"),
    [
        ("strand: tempo", "strand: temop", '6:13: H110 name-unknown: "temop"'),
        ("lesson: even-count", "lesson: evencount", '"evencount" under "lesson" is unknown'),
        ("lesson: even-count", "lesson: belly-breath", '"belly-breath" under "lesson" is unknown'),
        ("[chest]", "[chset]", '"chset" under "moves" is unknown'),
        ("{moves: [chest], ", "{mvoes: [chest], ", '"mvoes" under "when" is unknown'),
        ("{under: 8}", "{}", "is given no bound"),
        ("{under: 8}", "[long]", 'the question "hold" is timed'),
        ("moves: [chest]", "moves: {under: 3}", 'the question "moves" is not timed'),
        ("timed: true", "timed: false", "has neither answers nor a time"),
        ("id: hold", "id: moves", 'the question "moves" is asked twice'),
        ("{lesson: even-count, why", "{when: {moves: [belly]}, why", "doesn't fit everybody"),
        ("why: Not yet.", "whi: Not yet.", "H104 key-unknown"),
        ("ask_first: [You feel ill today]", "ask_first: []", "ask_first"),
    ],
)
def test_every_fault_is_told_with_its_place(old: str, new: str, says: str) -> None:
    assert old in SOUND
    lines = find(SOUND.replace(old, new, 1))
    assert any(says in line for line in lines)
    assert all(line.startswith(f"{PATH}:") for line in lines)


def test_the_starters_table_sends_nobody_to_a_lesson_of_another_strand() -> None:
    course = read_course(Path(__file__).parents[2], today=date(2026, 11, 26)).course
    assert course is not None
    assert course.placement is not None
    for start in course.placement.starts:
        for way in start.ways:
            if way.lesson_id:
                assert course.by_id[way.lesson_id].strand.id == start.strand_id
    assert [start.strand_id for start in course.placement.starts] == list(course.vocabulary.strands)


def test_the_starter_asks_nothing_that_leads_nowhere() -> None:
    course = read_course(Path(__file__).parents[2], today=date(2026, 11, 26)).course
    assert course is not None
    assert course.placement is not None
    ways = [way for start in course.placement.starts for way in start.ways]
    used = {condition.question_id for way in ways for condition in way.conditions}
    assert used == {question.id for question in course.placement.questions}


ANSWERED = """\
ask_first: [You feel ill today]
questions:
  - id: moves
    text: First?
    lesson: belly-breath
    measure: mover
    words: {both: chest}
    answers: {belly: Belly, chest: Chest}
  - {id: hold, text: How long?, timed: true, lesson: even-count, measure: hold-s}
  - id: kneel
    text: Kneel?
    answers: {easy: Easily, pad: With a pad, not: Not}
    conditions: {not: [unsteady], pad: [sore-knees]}
    ready: {easy: even-count}
    otherwise: not
    bars: {not: [knee-load, wrist-load]}
start:
  - strand: tempo
    ways:
      - {lesson: even-count, why: The first count.}
"""


def test_a_table_says_where_records_answer() -> None:
    table, findings = read_placement(ANSWERED, PATH, NAMES, TODAY)
    assert findings == []
    assert table is not None
    moves, hold, kneel = (question.evidence for question in table.questions)
    assert moves.measure_id == "mover"
    assert moves.words == {"chest": "chest", "belly": "belly", "both": "chest"}
    assert (hold.measure_id, hold.words) == ("hold-s", {})
    assert kneel.conditions == {"not": ("unsteady",), "pad": ("sore-knees",)}
    assert kneel.bars == {"not": {"knee-load", "wrist-load"}}
    assert (kneel.ready, kneel.otherwise) == ({"easy": "even-count"}, "not")


@pytest.mark.parametrize(
    ("old", "new", "says"),
    [
        ("measure: mover", "measure: movre", '6:14: H110 name-unknown: "movre" under "measure"'),
        ("measure: mover", "measure: reach", '"reach" is read on each side'),
        ("measure: mover", "measure: reach", '"reach" is read in numbers'),
        ("measure: mover", "measure: hold-s", 'doesn\'t record "hold-s"'),
        ("    lesson: belly-breath\n", "", '"moves" names a measure but no lesson'),
        (
            "    measure: mover\n",
            "",
            '6:12: H113 value-out-of-range: the question "moves" has words',
        ),
        ("measure: hold-s", "measure: mover", '"mover" is not in seconds'),
        ("{both: chest}", "{bot: chest}", '7:13: H110 name-unknown: "bot" under "words"'),
        ("{both: chest}", "{both: chset}", '"chset" under "both" is unknown'),
        ("    words: {both: chest}\n", "", 'the word "both" of "mover" leads to no answer'),
        ("[sore-knees]", "[sore-kneees]", '"sore-kneees" under "pad" is unknown'),
        ("not: [unsteady]", "nto: [unsteady]", '"nto" under "conditions" is unknown'),
        ("pad: [sore-knees]", "easy: [sore-knees]", '"easy" is the first answer, and conditions'),
        (
            "{not: [unsteady], pad: [sore-knees]}",
            "{pad: [sore-knees], not: [unsteady]}",
            "don't begin with the most careful answer",
        ),
        ("{easy: even-count}", "{easy: evencount}", '"evencount" under "easy" is unknown'),
        ("{easy: even-count}", "{esy: even-count}", '"esy" under "ready" is unknown'),
        ("    otherwise: not\n", "", "has no answer for who is ready in none of these"),
        ("otherwise: not", "otherwise: nto", '"nto" under "otherwise" is unknown'),
        ("{id: hold,", "{id: hold, otherwise: long,", '"long" under "otherwise" is unknown'),
        ("{not: [knee-load,", "{nto: [knee-load,", '"nto" under "bars" is unknown'),
        ("[knee-load,", "[knee-laod,", '"knee-laod" under "not" is unknown'),
        ("conditions: {not: [unsteady],", "conditions: {not: unsteady,", "not a list"),
    ],
)
def test_records_that_cannot_answer_are_told(old: str, new: str, says: str) -> None:
    assert old in ANSWERED
    lines = find(ANSWERED.replace(old, new, 1))
    assert any(says in line for line in lines), lines
    assert all(line.startswith(f"{PATH}:") for line in lines)


def test_a_lesson_that_cannot_be_read_may_record_anything() -> None:
    unread = replace(NAMES, measured_in={})
    assert read_placement(ANSWERED, PATH, unread, TODAY)[1] == []
