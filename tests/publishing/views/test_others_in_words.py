"""Who comes unplanned: offered is only what was checked for them and fits beside the others."""

from dataclasses import replace
from datetime import date

import pytest

from builder.course.trait import is_loaded
from builder.planning.class_plan.guests import find_guest
from builder.planning.class_plan.planned import PlannedClass, Planner
from builder.publishing.views.class_in_words import view_class
from builder.publishing.views.class_view import ClassView, OtherView
from builder.publishing.views.others_in_words import view_others
from builder.records.class_order import ClassOrder
from builder.records.program import Program
from builder.records.record_folder import read_records
from tests.planning.starter import ROOT, read_starter

DAY = date(2026, 11, 24)
FOLDER = ROOT / "demo_program"


@pytest.fixture(scope="module")
def program() -> Program:
    return read_records(FOLDER, read_starter()).program


@pytest.fixture(scope="module")
def planned(program: Program) -> PlannedClass:
    order = ClassOrder(DAY, "small", 30, ("C5", "C6"), ("K1",), ())
    found = Planner(read_starter(), program, order).plan()
    assert isinstance(found, PlannedClass)
    return found


@pytest.fixture(scope="module")
def others(program: Program, planned: PlannedClass) -> tuple[OtherView, ...]:
    return view_others(read_starter(), program, planned)


@pytest.fixture(scope="module")
def view(program: Program, planned: PlannedClass) -> ClassView:
    return view_class(read_starter(), program, planned)


def test_nobody_of_the_class_and_no_coach_of_it_is_among_them(
    others: tuple[OtherView, ...],
) -> None:
    assert {other.person_id for other in others} == {"C1", "C2", "C3", "C4", "C7", "C8", "K2"}


def test_nothing_is_offered_that_is_barred_or_that_they_never_did(
    program: Program, others: tuple[OtherView, ...]
) -> None:
    course, offered = read_starter(), 0
    for other in others:
        guest = find_guest(course, program, other.person_id, DAY)
        for turn in (turn for turns in other.turns for turn in turns):
            offered += 1
            assert turn.person_id == other.person_id
            assert turn.lesson_id not in guest.barriers
            done = guest.standing.known.union(guest.standing.tries)
            assert turn.lesson_id in done
    assert offered > 0


def test_everything_fits_into_its_block(view: ClassView, others: tuple[OtherView, ...]) -> None:
    course = read_starter()
    blocks = (*view.blocks, *view.spare)
    for other in others:
        assert len(other.turns) == len(blocks)
        for block, turns in zip(blocks, other.turns, strict=True):
            for turn in turns:
                drill = course.by_id[turn.lesson_id].drill
                assert turn.tempo in (None, block.tempo)
                assert turn.seconds <= block.minutes * 60
                assert block.is_loaded or not is_loaded(drill)


def test_each_lesson_of_a_block_is_either_offered_or_refused_with_a_reason(
    view: ClassView, others: tuple[OtherView, ...]
) -> None:
    blocks = (*view.blocks, *view.spare)
    for other in others:
        for block, turns, not_these in zip(blocks, other.turns, other.not_these, strict=True):
            offered = {turn.lesson_id for turn in turns}
            refused = {each.lesson_id for each in not_these}
            assert offered.isdisjoint(refused)
            assert {turn.lesson_id for turn in block.turns} <= offered | refused
            assert all(each.why for each in not_these)


def test_who_is_barred_brings_what_stops_them_and_why(others: tuple[OtherView, ...]) -> None:
    """A coach at the door would else give them what everybody does."""
    (other,) = (each for each in others if each.person_id == "C8")
    assert other.cautions[0].startswith("back pain: With any of the signs")
    barred = [each for found in other.not_these for each in found if each.is_barred]
    assert barred
    assert all("leaves it out with back pain" in each.why for each in barred)


def test_who_has_to_ask_first_is_offered_nothing_and_is_told_of(
    program: Program, planned: PlannedClass
) -> None:
    people = {**program.people, "C2": replace(program.people["C2"], cleared={})}
    others = view_others(read_starter(), replace(program, people=people), planned)
    (other,) = (each for each in others if each.person_id == "C2")
    assert any("a licensed clinician comes first" in each for each in other.cautions)
    assert all(found for found in other.not_these)
