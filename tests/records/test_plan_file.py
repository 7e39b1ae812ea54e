"""Plan files: what is written is read back, and what a coach changes is read or told."""

from datetime import date
from pathlib import Path

import pytest
import yaml
from hypothesis import given
from hypothesis import strategies as st

from builder.course.tempo import Tempo
from builder.errors import InvalidValueError
from builder.reading.course_folder import read_course
from builder.records.class_order import ClassOrder
from builder.records.known import Known
from builder.records.plan import OWN_PACE, ClassPlan, PlannedBlock, Turn
from builder.records.plan_file import find_plan_path, read_plan, read_plan_file
from builder.records.plan_text import PlanNotes, write_plan
from builder.resources import find_starter

PATH = "program/plans/2026-11-24-tuesday.yml"
PLAN = ClassPlan(
    "2026-11-24-tuesday",
    ("C1", "C3"),
    (
        PlannedBlock(
            OWN_PACE, "supine", (Turn("C1", "hand-on-belly"), Turn("C3", "wide-ribs", True))
        ),
        PlannedBlock("4-1-4-1", "sitting", (Turn("C1", "plain-count"), Turn("C3", "plain-count"))),
    ),
)
NOTES = PlanNotes(
    {"hand-on-belly": "Hand on belly", "plain-count": "Plain count"},
    {"supine": "lying on the back", "sitting": "sitting"},
    (6, 7.5),
)
WRITTEN = """\
# The plan of the class 2026-11-24-tuesday. Change it as you like.
# count: inhale-hold-exhale-hold in seconds, or own pace; one for all in a block.
# position: one for all in a block: supine (lying on the back), sitting (sitting).
# people: a lesson for everybody; {lesson: …, look: true} where a coach looks closely.
# Then check it again: tempoleaf class classes/2026-11-24-tuesday.yml
blocks:

  # Block 1, 6 minutes
  - count: own pace
    position: supine  # lying on the back
    people:
      C1: hand-on-belly  # Hand on belly
      C3: {lesson: wide-ribs, look: true}

  # Block 2, 7.5 minutes
  - count: 4-1-4-1
    position: sitting  # sitting
    people:
      C1: plain-count  # Plain count
      C3: plain-count  # Plain count
"""


def test_a_plan_is_written_for_a_coach_to_change() -> None:
    assert write_plan(PLAN, NOTES) == WRITTEN


def test_what_is_written_is_read_back(known: Known, order: ClassOrder) -> None:
    assert read_plan(WRITTEN, PATH, known, order) == (PLAN, [])
    assert read_plan(write_plan(PLAN), PATH, known, order) == (PLAN, [])


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ("4-1-4-1", '"4-1-4-pause"'),
        ("own pace", "Own  Pace"),
        ("own pace", "natural"),
        ("C1: hand-on-belly", "C1: {lesson: hand-on-belly}"),
        ("C1: hand-on-belly", "C1: {lesson: hand-on-belly, look: false}"),
        ("C3: {lesson: wide-ribs, look: true}", "C3: {look: true, lesson: wide-ribs}"),
        (
            "C3: {lesson: wide-ribs, look: true}",
            "C3:\n        lesson: wide-ribs\n        look: true",
        ),
        (
            "      C1: plain-count  # Plain count\n      C3: plain-count",
            "      C3: plain-count\n      C1: plain-count",
        ),
    ],
)
def test_a_coach_may_write_it_otherwise(
    known: Known, order: ClassOrder, old: str, new: str
) -> None:
    assert old in WRITTEN
    body = WRITTEN.partition("blocks:")[2]
    changed = f"blocks:{body.replace(old, new, 1)}"
    assert read_plan(changed, PATH, known, order) == (PLAN, [])


@pytest.mark.parametrize(
    ("old", "new", "says"),
    [
        ("C1: hand-on-belly", "C1: hand-on-bely", ':12:11: H110 name-unknown: "hand-on-bely" is '
         'unknown; write "hand-on-belly" if that is meant.'),
        ("C1: hand-on-belly", "C1: Hand on the belly", 'unknown; write "hand-on-belly".'),
        ("lesson: wide-ribs", "lesson: wide-rib", ':13:20: H110 name-unknown: "wide-rib" is'),
        ("look: true", "look: yes", '"look" is "yes", not true or false'),
        ("look: true", "loock: true", 'no key here; write "look"'),
        ("lesson: wide-ribs, ", "", '"lesson" is missing from "C3"'),
        ("      C1: hand-on-belly  # Hand on belly\n", "", ':12:7: H103 key-missing: "C1" is '
         'missing from this block; add "C1: …" with a lesson.'),
        ("C1: hand-on-belly", "C2: hand-on-belly", ':12:7: H110 name-unknown: "C2" is not in the '
         'class 2026-11-24-tuesday; take the line out, or add them to the class file.'),
        ("C1: hand-on-belly", "c1: hand-on-belly", '; write "C1" if that is meant.'),
        ("C1: hand-on-belly", "C1: hand-on-belly\n      C1: wide-ribs", "H105 key-doubled"),
        ("C1: hand-on-belly", "C1: hand-on-belly\n      Zoe: wide-ribs", ':13:7: H110 '
         'name-unknown: a name is not in the class 2026-11-24-tuesday; take the line out, or'),
        ("C1: hand-on-belly", "C1:", "a person has no lesson here; give one, such as C1: even"),
        ("C1: hand-on-belly", "C1: [a]", "a person has no lesson here"),
        ("position: supine", "position: lying on the back", 'is unknown; write "supine".'),
        ("position: supine", "position: spine", 'is unknown; write "supine" if that is meant.'),
        ("position: supine", "position: 1", '"position" is 1, not text'),
        ("count: own pace", "count: 4:4:4:4", ":9:12: H107 tempo-malformed: tempo \"4:4:4:4\" has"
         " other signs than hyphens between its phases; write 4-4-4-4."),
        ("count: own pace", "count: 4", ':9:12: H107 tempo-malformed: "count" is 4, not text; give '
         "one such as 4-1-4-1, or own pace."),
        ("count: own pace", "count:", '"count" is empty, not text'),
        ("blocks:\n", "block:\n", 'write "blocks" if that is meant'),
    ],
)  # fmt: skip
def test_every_fault_is_told_with_its_place(
    known: Known, order: ClassOrder, old: str, new: str, says: str
) -> None:
    head, key, body = WRITTEN.partition("blocks:\n")
    assert old in f"{key}{body}"
    text = f"{head}{f'{key}{body}'.replace(old, new, 1)}"
    plan, findings = read_plan(text, PATH, known, order)
    lines = [str(finding) for finding in findings]
    assert plan is None
    assert any(says in line for line in lines), lines
    assert all(line.startswith(f"{PATH}:") for line in lines)


def test_faults_of_all_blocks_are_told_at_once(known: Known, order: ClassOrder) -> None:
    text = WRITTEN.replace("wide-ribs", "x").replace("4-1-4-1", "4-1").replace("C1: plain", "C2: p")
    _, findings = read_plan(text, PATH, known, order)
    assert sorted(finding.place.line for finding in findings) == [13, 16, 19, 19, 19]


def test_one_of_several_positions_of_a_family_gives_it_away(order: ClassOrder) -> None:
    starter = read_course(find_starter().parent).course
    assert starter is not None
    text = "blocks:\n  - count: own pace\n    position: prone\n    people: {C1: x, C3: x}\n"
    _, findings = read_plan(text, PATH, Known(starter, starter.day), order)
    assert 'write "lying"' in {finding.cure for finding in findings}


def test_no_file_is_no_plan_and_no_finding(known: Known, order: ClassOrder, tmp_path: Path) -> None:
    assert read_plan_file(tmp_path, known, order) == (None, [])
    path = find_plan_path(tmp_path, order)
    path.parent.mkdir()
    path.write_text(WRITTEN, "utf-8")
    assert read_plan_file(tmp_path, known, order) == (PLAN, [])


def test_a_plan_has_one_turn_for_each_person_by_id() -> None:
    turns = (Turn("C3", "wide-ribs"), Turn("C1", "wide-ribs"))
    for wrong in (turns, turns[:1], (*turns, turns[1])):
        with pytest.raises(InvalidValueError, match="block 1 has not one turn for each person"):
            ClassPlan("x", ("C1", "C3"), (PlannedBlock(OWN_PACE, "supine", wrong),))
    for people in (("C3", "C1"), ("C1", "C1", "C3")):
        with pytest.raises(InvalidValueError, match="people are not each there once by id"):
            ClassPlan("x", people, ())


LESSONS = ["hand-on-belly", "wide-ribs", "plain-count", "long-out", "short-hold"]
IDS = st.from_regex(r"[A-Za-z0-9]{1,4}(-[A-Za-z0-9]{1,3})?", fullmatch=True) | st.sampled_from(
    ["no", "True", "null", "007", "1e3", "0x1F", "2026-11-24", "y", "lesson", "12"]
)
PHASES = st.sampled_from([0.5, 1.0, 4.0, 5.5, 10.0])


@st.composite
def plans(draw: st.DrawFn) -> ClassPlan:
    people = draw(st.lists(IDS, min_size=1, max_size=5, unique=True))
    blocks = draw(st.integers(1, 4))
    return ClassPlan(
        "2026-11-24-tuesday",
        tuple(sorted(people)),
        tuple(
            PlannedBlock(
                draw(st.just(OWN_PACE) | st.builds(Tempo, PHASES, PHASES, PHASES, PHASES).map(str)),
                draw(st.sampled_from(["supine", "sitting"])),
                tuple(
                    Turn(person, draw(st.sampled_from(LESSONS)), draw(st.booleans()))
                    for person in sorted(people)
                ),
            )
            for _ in range(blocks)
        ),
    )


NOTES_OF_ANY_TEXT = st.builds(
    PlanNotes,
    st.dictionaries(st.sampled_from(LESSONS), st.text(max_size=20)),
    st.dictionaries(st.sampled_from(["supine", "sitting"]), st.text(max_size=20)),
    st.lists(st.floats(0, 200), max_size=4).map(tuple),
)


@given(plans(), NOTES_OF_ANY_TEXT)
def test_any_plan_is_read_back_equal_whatever_its_remarks(
    known: Known, plan: ClassPlan, notes: PlanNotes
) -> None:
    text = write_plan(plan, notes)
    asked = make_order(plan)
    assert read_plan(text, PATH, known, asked) == (plan, [])


@given(plans(), NOTES_OF_ANY_TEXT)
def test_another_reader_of_yaml_reads_the_same_names(plan: ClassPlan, notes: PlanNotes) -> None:
    blocks = yaml.safe_load(write_plan(plan, notes))["blocks"]
    for block, planned in zip(blocks, plan.blocks, strict=True):
        assert list(block["people"]) == [turn.person_id for turn in planned.turns]
        assert block["count"] == planned.count


def make_order(plan: ClassPlan) -> ClassOrder:
    return ClassOrder(date(2026, 11, 24), "tuesday", 45, plan.people, ("coach",), ())


@given(st.text(max_size=200))
def test_any_text_gives_findings_or_a_plan(known: Known, text: str) -> None:
    asked = make_order(PLAN)
    for written in (text, f"blocks:\n{text}", f"blocks: [{text}]", WRITTEN + text):
        plan, findings = read_plan(written, PATH, known, asked)
        assert (plan is None) == bool(findings)


@given(st.data())
def test_any_cut_or_doubled_piece_gives_findings_or_a_plan(
    known: Known, data: st.DataObject
) -> None:
    start = data.draw(st.integers(0, len(WRITTEN)))
    end = data.draw(st.integers(start, len(WRITTEN)))
    asked = make_order(PLAN)
    for written in (WRITTEN[:start] + WRITTEN[end:], WRITTEN[:end] + WRITTEN[start:]):
        plan, findings = read_plan(written, PATH, known, asked)
        assert (plan is None) == bool(findings)
