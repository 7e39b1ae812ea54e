"""Where a person's notices move a lesson, all of them taken together."""

from dataclasses import replace
from datetime import timedelta

import pytest

from builder.course.course import Course
from builder.course.notice import Action, Instead, Notice
from builder.course.vocabulary import PropUse
from builder.planning.moving import Move, find_move, move_drill
from builder.planning.permission import (
    AdaptationKind,
    BarrierKind,
    find_adaptations,
    find_barriers,
)
from builder.records.person import Person
from builder.report.placement_words import say_adaptation, say_barrier
from tests.planning.starter import TODAY, make_person, read_starter

STARTER = read_starter()
POSITIONS = STARTER.vocabulary.positions
FACE_DOWN = STARTER.by_id["crocodile"]


def go_to(position: str, **props: int) -> Instead:
    known = STARTER.vocabulary.props
    return Instead(
        POSITIONS[position], tuple(PropUse(known[name], count) for name, count in props.items())
    )


def make_notice(name: str, traits: str, action: Action, instead: Instead | None = None) -> Notice:
    """Make a notice for reflux; only what moves or bars counts here."""
    like = next(each for each in STARTER.notices if each.id == "face-down")
    return replace(
        like,
        id=name,
        title=name,
        action=action,
        traits=frozenset(traits.split()),
        conditions=("reflux",),
        adapt=f"Do as {name} says.",
        instead=instead,
    )


def with_notices(*notices: Notice) -> Course:
    """Return the starter with these notices in place of all that name reflux."""
    others = [each for each in STARTER.notices if "reflux" not in each.conditions]
    settings = replace(STARTER.settings, notices=None)
    return replace(STARTER, settings=settings, notices=(*others, *notices))


def find(*notices: Notice, person: Person | None = None) -> Move | None:
    person = person or make_person("reflux")
    return find_move(with_notices(*notices), person, FACE_DOWN, TODAY)


FIRST = make_notice("a-first", "prone", Action.ADAPT, go_to("supine", pillow=1))


def test_a_notice_moves_whom_it_names_and_nobody_else() -> None:
    assert find(FIRST) == Move((FIRST,), FIRST.instead)
    assert find(FIRST, person=make_person("asthma")) is None
    assert find(replace(FIRST, instead=None)) is None


def test_a_position_that_another_notice_moves_is_followed_to_where_that_one_leads() -> None:
    second = make_notice("second", "supine", Action.ADAPT, go_to("sitting", chair=1))
    assert find(FIRST, second) == Move((FIRST, second), second.instead)
    told = find_adaptations(with_notices(FIRST, second), make_person("reflux"), FACE_DOWN)
    moved = [each for each in told if each.kind is AdaptationKind.ADAPT]
    assert [each.notice for each in moved] == [FIRST, second]  # both are told to the person,
    assert {each.instead for each in moved} == {second.instead}  # and both lead to the same place
    assert say_adaptation(STARTER, moved[0]) == (
        "reflux: Do as a-first says. But here: sitting, by their other cautions."
    )
    assert say_adaptation(STARTER, moved[1]) == "reflux: Do as second says."


def test_the_first_named_position_that_suits_everything_is_taken() -> None:
    other = make_notice("b-other", "prone", Action.ADAPT, go_to("sitting"))
    against = make_notice("against", "supine", Action.STOP)
    assert find(FIRST, other) == Move((FIRST, other), FIRST.instead)
    assert find(FIRST, other, against) == Move((FIRST, other), other.instead)


@pytest.mark.parametrize(
    "notice",
    [
        make_notice("stops", "supine", Action.STOP),
        make_notice("asks", "floor-transfer supine", Action.ASK_FIRST),
        make_notice("back", "supine", Action.ADAPT, go_to("prone")),
    ],
)
def test_nobody_does_a_lesson_that_is_moved_and_has_nowhere_to_go(notice: Notice) -> None:
    course, person = with_notices(FIRST, notice), make_person("reflux")
    move = find_move(course, person, FACE_DOWN, TODAY)
    assert move is not None
    assert move.instead is None
    barriers = find_barriers(course, person, (), FACE_DOWN, TODAY)
    (barrier,) = (each for each in barriers if each.kind is BarrierKind.POSITION)
    assert (barrier.notice_id, barrier.conditions) == ("a-first", ("reflux",))
    assert say_barrier(course, barrier) == (
        'the notice "a-first" moves it with reflux, and no position that it leads to suits all of '
        "their notices"
    )


def test_a_clinicians_yes_opens_the_position_and_is_told() -> None:
    asks = make_notice("asks", "supine", Action.ASK_FIRST)
    course = with_notices(FIRST, asks)
    yes = make_person("reflux", cleared={"reflux": TODAY - timedelta(days=1)})
    assert find_move(course, yes, FACE_DOWN, TODAY) == Move((FIRST,), FIRST.instead)
    kinds = {each.kind for each in find_adaptations(course, yes, FACE_DOWN, day=TODAY)}
    assert kinds == {AdaptationKind.CLEARED, AdaptationKind.ADAPT}
    earlier = TODAY - timedelta(days=2)
    move = find_move(course, yes, FACE_DOWN, earlier)
    assert move is not None
    assert move.instead is None


def test_what_the_new_position_asks_is_told_though_the_lesson_has_none_of_it() -> None:
    upright = make_notice("up", "prone", Action.ADAPT, go_to("standing"))
    steady = make_notice("steady", "balance", Action.ADAPT)
    told = find_adaptations(with_notices(upright, steady), make_person("reflux"), FACE_DOWN)
    assert [each.text for each in told] == ["Do as steady says.", "Do as up says."]


@pytest.mark.parametrize("condition", STARTER.vocabulary.conditions)
def test_no_one_of_this_course_is_moved_to_where_another_notice_acts(condition: str) -> None:
    """Ours: sitting in a chair suits every notice of the starter course."""
    for other in STARTER.vocabulary.conditions:
        person = make_person(condition, other)
        for lesson in STARTER.lessons:
            move = find_move(STARTER, person, lesson, TODAY)
            assert move is None or (move.instead and move.instead.position.id == "sitting")


def test_a_moved_drill_keeps_its_props_but_for_what_lies_on_the_floor() -> None:
    drill = STARTER.by_id["even-count"].drill
    assert [use.prop.id for use in drill.props] == ["mat", "pillow"]
    moved = move_drill(drill, go_to("sitting", chair=1, pillow=2))
    assert moved.position.id == "sitting"
    assert [(use.prop.id, use.count) for use in moved.props] == [("pillow", 2), ("chair", 1)]
    assert (moved.tempo, moved.dose, moved.effort) == (drill.tempo, drill.dose, drill.effort)
    lying = move_drill(drill, go_to("side-lying"))
    assert [use.prop.id for use in lying.props] == ["mat", "pillow"]
