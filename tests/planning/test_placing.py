"""People are placed as the site's self-check would place them, and kept from what is barred."""

from dataclasses import replace
from datetime import date

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from builder.course.graph import find_before
from builder.errors import BuilderError
from builder.planning.permission import BarrierKind, find_barriers
from builder.planning.placement import Start, place
from builder.planning.placing import PersonStart, StartKind, find_answers, place_person
from builder.records.result import Result
from tests.browser_scripts.node import run_script
from tests.planning.starter import (
    TODAY,
    get_table,
    make_person,
    make_result,
    read_starter,
    write_table,
)

Answers = dict[str, str | float]
HISTORY = {"new": (), "breath": ("full-exhale",), "brace": ("full-exhale", "brace-and-breathe")}
"""The lessons of somebody who answers so, as the table has them."""
RIB_WORDS = {"even": "even", "left": "right first", "right": "left first"}
LESSONS = {"sitting": "hands-check-sitting", "lying": "hands-check-lying"}


def make_answers() -> st.SearchStrategy[Answers]:
    """Draw what somebody might answer on the site; "known" is always asked."""
    kinds: dict[str, st.SearchStrategy[str | float]] = {
        question.id: st.floats(0.5, 300) | st.sampled_from([7.99, 8.0, 8.01])
        if question.is_timed
        else st.sampled_from(list(question.answers))
        for question in get_table().questions
    }
    known = kinds.pop("known")
    return st.fixed_dictionaries({"known": known}, optional=kinds)


def record(answers: Answers) -> tuple[tuple[Result, ...], tuple[str, ...]]:
    """Write the same down as a coach would: results, and lessons somebody is ready in."""
    rows: list[Result] = []
    for name, answer in answers.items():
        if name == "hold":
            rows += [
                make_result("breath-hold-seconds", trial, "comfortable-hold")
                for trial in (max(0.5, float(answer) - 1), answer)
            ]
        elif name == "sides":
            rows.append(make_result("rib-sides", RIB_WORDS[str(answer)], "rib-sides-check"))
        elif name in LESSONS and answer != "skipped":
            rows.append(make_result("first-mover", answer, LESSONS[name]))
        elif name != "known":
            rows.append(make_result(name, answer))
    return tuple(rows), HISTORY[str(answers["known"])]


@settings(max_examples=12, deadline=None)
@given(st.lists(make_answers(), min_size=25, max_size=25))
def test_records_place_people_as_their_answers_do_here_and_in_a_browser(
    cases: list[Answers],
) -> None:
    course, table, person = read_starter(), get_table(), make_person()
    code = "return given.cases.map((c) => globalThis.tempoleaf.place(given.starts, c, false));"
    theirs = run_script(("placement.js",), code, {"cases": cases, "starts": write_table(table)})
    assert isinstance(theirs, list)
    for answers, browser in zip(cases, theirs, strict=True):
        results, ready = record(answers)
        assert find_answers(course, person, results, ready).values == answers
        starts = place_person(course, person, results, ready)
        assert tuple(each.start for each in starts) == place(table, answers, asks_first=False)
        assert all(each.kind is StartKind.FITS for each in starts)
        assert [each.lesson_id for each in starts] == [each["lesson"] for each in browser]
        assert [each.start and each.start.why for each in starts] == [
            each["why"] for each in browser
        ]


def place_with(
    *conditions: str, ready: tuple[str, ...] = (), cleared: dict[str, date] | None = None
) -> dict[str, PersonStart]:
    person = make_person(*conditions, cleared=cleared)
    starts = place_person(read_starter(), person, (), ready)
    return {start.strand_id: start for start in starts}


def test_without_a_clinicians_answer_there_is_no_start_at_all() -> None:
    starts = place_with("sore-knees", "pregnancy")
    assert list(starts) == list(read_starter().vocabulary.strands)
    for start in starts.values():
        assert (start.lesson_id, start.kind, start.start) == ("", StartKind.ASKS_FIRST, None)
        (barrier,) = start.barriers
        assert (barrier.kind, barrier.notice_id) == (BarrierKind.ASK_FIRST, "ask-first")
        assert barrier.conditions == ("pregnancy",)


def test_one_yes_of_two_is_not_enough() -> None:
    starts = place_with("pregnancy", "asthma", cleared={"pregnancy": date(2026, 11, 2)})
    assert {start.barriers[0].conditions for start in starts.values()} == {("asthma",)}


def test_a_yes_that_was_still_to_come_is_none() -> None:
    person = make_person("asthma", cleared={"asthma": TODAY})
    early = place_person(read_starter(), person, (), (), day=date(2026, 11, 1))
    assert {start.kind for start in early} == {StartKind.ASKS_FIRST}
    assert place_person(read_starter(), person, (), ())[0].lesson_id == "ready-to-start"


def test_a_barred_start_gives_way_to_an_easier_lesson_or_waits() -> None:
    # Back pain stops every brace; dizziness stops every count.
    starts = place_with("back-pain", ready=HISTORY["brace"])
    assert starts["brace"].kind is StartKind.WAITS
    assert starts["brace"].start == Start(
        "brace", "brace-and-breathe", "You know what comes before it."
    )
    assert {barrier.kind for barrier in starts["brace"].barriers} == {BarrierKind.STOP}
    assert starts["breath"].lesson_id == "full-exhale"
    dizzy = place_with("dizziness", ready=HISTORY["breath"], cleared={"dizziness": TODAY})
    assert (dizzy["tempo"].kind, dizzy["tempo"].lesson_id) == (StartKind.WAITS, "")
    assert dizzy["tempo"].barriers[0].notice_id == "tingling"


def start_at(
    lesson_id: str, *conditions: str, ready: tuple[str, ...] = (), results: tuple[Result, ...] = ()
) -> PersonStart:
    """Place somebody in a course whose table starts everybody of a strand at one lesson."""
    table = get_table()
    strand_id = read_starter().by_id[lesson_id].strand.id
    starts = tuple(
        replace(each, ways=(replace(each.ways[-1], lesson_id=lesson_id),))
        for each in table.starts
        if each.strand_id == strand_id
    )
    course = replace(read_starter(), placement=replace(table, starts=starts))
    person = make_person(*conditions, cleared=dict.fromkeys(conditions, TODAY))
    (start,) = place_person(course, person, results, ready)
    return start


def test_the_nearest_easier_lesson_that_is_permitted_takes_the_place() -> None:
    # The box's own easier version, the short box, holds as well, and its easier one is the count.
    start = start_at("box")
    assert (start.kind, start.lesson_id) == (StartKind.EASIER, "even-count")
    assert [(each.kind, each.hold_seconds) for each in start.barriers] == [(BarrierKind.HOLD, 4)]
    short = (make_result("breath-hold-seconds", 7.5),)
    assert start_at("box", results=short).lesson_id == "short-box"
    assert start_at("box", results=(make_result("breath-hold-seconds", 8),)).kind is StartKind.FITS


@pytest.mark.parametrize("condition", [*read_starter().vocabulary.conditions])
def test_whatever_takes_a_place_is_permitted_lower_and_in_order(condition: str) -> None:
    course = read_starter()
    person = make_person(condition, cleared={condition: TODAY})
    for lesson in course.lessons:
        start = start_at(lesson.id, condition)
        barred = find_barriers(course, person, (), lesson, TODAY)
        assert start.barriers == barred
        assert (start.kind is StartKind.FITS) == (not barred)
        if start.kind is StartKind.EASIER:
            other = course.by_id[start.lesson_id]
            assert other.strand == lesson.strand
            assert find_barriers(course, person, (), other, TODAY) == ()
            assert set(other.builds_on) <= find_before(course.graph, lesson.id)


def test_an_easier_lesson_that_the_order_does_not_allow_is_passed_over() -> None:
    # With dizziness no count is left, so of the stretches only the rest pose is; it builds on the
    # crocodile, and nothing on the way to the rotation says that somebody knows that.
    course = read_starter()
    assert course.by_id["rest-pose-back-ribs"].builds_on == ("back-rib-breath", "crocodile")
    assert start_at("side-lying-rotation-hold", "dizziness").kind is StartKind.WAITS
    known = start_at("side-lying-rotation-hold", "dizziness", ready=("crocodile",))
    assert (known.kind, known.lesson_id) == (StartKind.EASIER, "rest-pose-back-ribs")


def test_a_start_of_which_nothing_is_known_waits() -> None:
    course = read_starter()
    fewer = tuple(lesson for lesson in course.lessons if lesson.id != "belly-breath")
    unread = replace(course, lessons=fewer, unreadable=frozenset({"belly-breath"}))
    starts = {each.strand_id: each for each in place_person(unread, make_person(), (), ())}
    assert (starts["breath"].kind, starts["breath"].lesson_id) == (StartKind.UNREADABLE, "")


def test_a_notice_that_cannot_be_read_permits_nothing() -> None:
    course = replace(read_starter(), unreadable_notices=frozenset({"face-down"}))
    with pytest.raises(BuilderError, match='notice "face-down" can\'t be read'):
        place_person(course, make_person(), (), ())


def test_a_course_without_a_table_places_nobody() -> None:
    assert place_person(replace(read_starter(), placement=None), make_person(), (), ()) == ()
