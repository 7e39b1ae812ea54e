"""The placement table: read whole, or every fault told with its place."""

from datetime import date
from pathlib import Path

import pytest

from builder.reading.course_folder import read_course
from builder.reading.placement_file import read_placement

TODAY = date(2026, 11, 20)
PATH = "content/placement.yml"
STRANDS = {"breath": frozenset({"belly-breath"}), "tempo": frozenset({"even-count"})}
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
    table, findings = read_placement(text, PATH, STRANDS, TODAY)
    assert (table is None) == bool(findings)
    return [str(finding) for finding in findings]


def test_a_sound_table_is_read() -> None:
    table, findings = read_placement(SOUND, PATH, STRANDS, TODAY)
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
