"""A class in words, held against the plan, the records and the course's own files."""

from dataclasses import replace

import pytest
import yaml

from builder.course.dose import Dose
from builder.planning.progress import find_rest
from builder.publishing.views.class_in_words import view_class
from builder.records.plan import OWN_PACE, Turn
from builder.report.placement_words import say_adaptation
from tests.publishing.demo_classes import ROOT, plan_demo, read_demo, view_demo

CLASSES = ("2026-11-24-mixed", "2026-11-26-small", "2026-11-28-saturday")


@pytest.mark.parametrize("name", CLASSES)
def test_every_turn_of_the_plan_is_there_in_its_place(name: str) -> None:
    plan, view = plan_demo(name).plan, view_demo(name)
    shown = [
        [Turn(turn.person_id, turn.lesson_id, turn.has_close_look) for turn in block.turns]
        for block in view.blocks
    ]
    assert shown == [list(block.turns) for block in plan.blocks]


@pytest.mark.parametrize("name", CLASSES)
def test_nothing_that_changes_for_a_person_is_left_out(name: str) -> None:
    course, _ = read_demo()
    planned, view = plan_demo(name), view_demo(name)
    told = dict(view.cautions)
    for block in (*view.blocks, *view.spare):
        for turn in block.turns:
            changes = planned.guests[turn.person_id].adaptations.get(turn.lesson_id, ())
            assert turn.cautions == tuple(say_adaptation(course, each) for each in changes)
            assert len(turn.caution_words) == len(turn.cautions)
            assert set(turn.cautions) <= set(told.get(turn.person_id, ()))
    assert all(len(set(own)) == len(own) > 0 for own in told.values())


def test_what_stops_some_lessons_of_a_person_is_told_though_no_turn_has_them() -> None:
    """C8 has back pain and no clinician's answer: a coach who changes the plan must know."""
    course, _ = read_demo()
    (notice,) = (each for each in course.notices if each.id == "back-pain")
    told = dict(view_demo("2026-11-24-mixed").cautions)
    assert told["C8"][0] == f"back pain: {notice.adapt}"
    assert not any("back pain" in text for who, own in told.items() if who != "C8" for text in own)


def test_a_turn_points_at_what_changes_and_not_at_a_clinicians_yes() -> None:
    turns = [turn for block in view_demo("2026-11-24-mixed").blocks for turn in block.turns]
    (high,) = (turn for turn in turns if turn.person_id == "C2" and turn.cautions[1:])
    assert [word for _, word in high.pointers] == ["another way"]
    plain = [turn for turn in turns if turn.person_id == "C2" and turn is not high]
    assert all(turn.cautions and not turn.pointers for turn in plain)


def test_each_person_has_their_own_rest_and_no_other() -> None:
    course, program = read_demo()
    planned, view = plan_demo("2026-11-24-mixed"), view_demo("2026-11-24-mixed")
    shortened = 0
    for turn in (turn for block in view.blocks for turn in block.turns):
        lesson = course.by_id[turn.lesson_id]
        rows = [
            row
            for row in program.attendance
            if row.person_id == turn.person_id and row.day < planned.order.day
        ]
        tries = planned.guests[turn.person_id].standing.tries.get(lesson.id, ())
        rest = find_rest(lesson, sorted(rows, key=lambda row: row.day), tries)
        assert turn.rest_seconds == (round(rest.seconds) if rest else 0)
        if isinstance(turn.dose, Dose) and isinstance(lesson.drill.dose, Dose):
            assert turn.dose.rest_seconds == turn.rest_seconds
            shortened += turn.rest_seconds < lesson.drill.dose.rest_seconds
    assert shortened > 5


def test_what_to_look_at_is_the_first_fault_with_its_cure() -> None:
    course, _ = read_demo()
    turns = [turn for block in view_demo("2026-11-26-small").blocks for turn in block.turns]
    for turn in turns:
        watch_for = course.by_id[turn.lesson_id].words.watch_for
        assert turn.look_at == watch_for[0].replace("*", "")


def test_who_breathes_at_their_own_pace_is_marked_where_others_count() -> None:
    for block in view_demo("2026-11-24-mixed").blocks:
        for turn in block.turns:
            assert turn.keeps_own_pace == (turn.tempo is None and block.tempo is not None)


def test_props_to_lay_out_are_the_most_of_any_block() -> None:
    view = view_demo("2026-11-28-saturday")
    for title, count in view.props:
        assert count == max(dict(block.props).get(title, 0) for block in view.blocks)
    assert {title for block in view.blocks for title, _ in block.props} == dict(view.props).keys()


def test_a_comfortable_hold_is_timed_and_words_are_there_to_choose() -> None:
    records = {
        record.id: record
        for block in view_demo("2026-11-24-mixed").blocks
        for turn in block.turns
        for record in turn.records
    }
    assert records["breath-hold-seconds"].is_timed
    assert records["first-mover"].words == ("chest", "belly", "both")
    assert not records["first-mover"].is_timed


def test_a_weaker_side_begins_and_has_the_more_sets() -> None:
    course, program = read_demo()
    planned = plan_demo("2026-11-28-saturday")
    block, turn = next(
        (block, turn)
        for block in planned.plan.blocks
        for turn in block.turns
        if turn.lesson_id == "weak-side-breath" and block.count != OWN_PACE
    )
    weaker = planned.guests[turn.person_id].weaker_sides.get("weak-side-breath")
    view = view_class(course, program, planned)
    number = planned.plan.blocks.index(block)
    shown = next(each for each in view.blocks[number].turns if each.person_id == turn.person_id)
    assert shown.first_side == (weaker.value if weaker else "")
    assert bool(shown.side_text) == bool(weaker)


def test_a_class_without_a_studio_bears_the_courses_own_line() -> None:
    course, program = read_demo()
    settings = replace(course.settings, studio=replace(course.settings.studio, name="Reed House"))
    view = view_class(replace(course, settings=settings), program, plan_demo("2026-11-26-small"))
    assert view.studio.startswith("Reed House")


def list_moving() -> list[dict[str, list[str]]]:
    """Read the notices that move a lesson from their files, without the tool."""
    files = sorted((ROOT / "content" / "notices").glob("*.md"))
    heads = [yaml.safe_load(path.read_text("utf-8").split("---\n")[1]) for path in files]
    return [head for head in heads if "instead" in head]


@pytest.mark.parametrize("name", CLASSES)
def test_nobody_whom_a_notice_moves_is_shown_lying_down(name: str) -> None:
    course, program = read_demo()
    view, moving = view_demo(name), list_moving()
    own = [turn for block in (*view.blocks, *view.spare) for turn in block.turns]
    others = [turn for other in view.others for turns in other.turns for turn in turns]
    moved = 0
    for turn in (*own, *others):
        conditions = program.people[turn.person_id].conditions
        traits = course.traits_by_lesson[turn.lesson_id]
        sits = any(traits & {*each["traits"]} and {*conditions} & {*each["conditions"]}
                   for each in moving)  # fmt: skip
        moved += sits
        assert bool(turn.instead) is sits
        if sits:
            assert turn.figure
            assert {turn.figure.inhale.base, turn.figure.exhale.base} == {"sitting"}
            assert (turn.position, turn.instead) == ("sitting", "sitting instead")
            assert turn.short_words.startswith("sitting instead")
            assert ("chair", 1) in turn.props
            assert "mat" not in dict(turn.props)
    assert moved


def test_a_chair_is_laid_out_for_each_who_sits_among_those_who_lie() -> None:
    for block in view_demo("2026-11-24-mixed").blocks:
        sitting = [turn for turn in block.turns if turn.instead]
        if block.family == "lying down" and sitting:
            assert dict(block.props)["chair"] >= len(sitting)
