"""What bars a person from a lesson and what changes in it, against the notice files themselves."""

from dataclasses import replace
from datetime import date, timedelta
from itertools import product

import pytest
import yaml

from builder.course.lesson import Lesson
from builder.course.reference_body import LungReference
from builder.errors import BuilderError
from builder.planning.permission import (
    Adaptation,
    AdaptationKind,
    Barrier,
    BarrierKind,
    find_adaptations,
    find_barriers,
    list_uncleared,
)
from builder.records.person import Person
from builder.records.result import Result
from tests.planning.starter import ROOT, TODAY, make_person, make_result, read_starter

CONDITIONS = [*read_starter().vocabulary.conditions]
LONG_HOLD = (make_result("breath-hold-seconds", 60),)
"""So long that no count of the course is over half of it."""


def read_notices() -> dict[str, dict[str, object]]:
    """Read the headers of the notice files without the tool."""
    files = sorted((ROOT / "content" / "notices").glob("*.md"))
    return {
        path.stem: yaml.safe_load(path.read_text("utf-8").split("---\n")[1])
        for path in files
        if "." not in path.stem
    }


NOTICES = read_notices()


def list_named(lesson: Lesson, action: str, condition: str) -> list[str]:
    """Return the notices of one kind that name a condition, by what the files say."""
    traits = read_starter().traits_by_lesson[lesson.id]
    return [
        name
        for name, notice in NOTICES.items()
        if notice["action"] == action
        and condition in notice["conditions"]  # type: ignore[operator]
        and (notice.get("everywhere") or traits & set(notice["traits"]))  # type: ignore[call-overload]
    ]


def bar(
    lesson_id: str, person: Person, results: tuple[Result, ...] = LONG_HOLD, day: date = TODAY
) -> tuple[Barrier, ...]:
    course = read_starter()
    return find_barriers(course, person, results, course.by_id[lesson_id], day)


def adapt(lesson_id: str, person: Person, day: date = TODAY) -> tuple[Adaptation, ...]:
    course = read_starter()
    return find_adaptations(course, person, course.by_id[lesson_id], day=day)


def test_the_starter_waives_nothing_so_that_its_files_tell_all() -> None:
    assert [lesson.id for lesson in read_starter().lessons if lesson.waivers] == []


@pytest.mark.parametrize("condition", CONDITIONS)
def test_each_condition_bars_what_the_notice_files_say(condition: str) -> None:
    person = make_person(condition)
    for lesson in read_starter().lessons:
        found = bar(lesson.id, person)
        for kind in (BarrierKind.STOP, BarrierKind.ASK_FIRST):
            told = [barrier.notice_id for barrier in found if barrier.kind is kind]
            assert told == list_named(lesson, kind.value, condition), lesson.id
        assert {barrier.conditions for barrier in found} <= {(condition,)}
        assert {barrier.kind for barrier in found} <= {BarrierKind.STOP, BarrierKind.ASK_FIRST}


@pytest.mark.parametrize("condition", CONDITIONS)
def test_each_condition_changes_what_the_notice_files_say(condition: str) -> None:
    person = replace(make_person(condition), hands_on=TODAY)
    for lesson in read_starter().lessons:
        found = adapt(lesson.id, person)
        told = [each.notice.id for each in found if each.notice]
        assert told == list_named(lesson, "adapt", condition), lesson.id
        for each in found:
            assert each.notice is not None
            assert each.text == NOTICES[each.notice.id]["adapt"]


@pytest.mark.parametrize("condition", CONDITIONS)
def test_a_clinicians_yes_never_lifts_a_stop(condition: str) -> None:
    asked, cleared = make_person(condition), make_person(condition, cleared={condition: TODAY})
    for lesson in read_starter().lessons:
        before = [each for each in bar(lesson.id, asked) if each.kind is BarrierKind.STOP]
        assert list(bar(lesson.id, cleared)) == before, lesson.id


def test_nobody_without_conditions_is_barred_or_asked_by_a_notice() -> None:
    for lesson in read_starter().lessons:
        assert bar(lesson.id, make_person()) == ()
        assert all(each.notice is None for each in adapt(lesson.id, make_person()))


def test_two_conditions_bar_no_less_than_each_of_them() -> None:
    for one, other in product(("back-pain", "sore-knees"), ("dizziness", "hernia")):
        for lesson in read_starter().lessons:
            both = {each.notice_id for each in bar(lesson.id, make_person(one, other))}
            apart = [*bar(lesson.id, make_person(one)), *bar(lesson.id, make_person(other))]
            assert both == {each.notice_id for each in apart}


def test_barriers_come_strongest_first() -> None:
    person = make_person("pregnancy", "back-pain", "dizziness")
    found = bar("box", person, ())
    assert [each.kind for each in found] == [
        BarrierKind.STOP,
        BarrierKind.ASK_FIRST,
        BarrierKind.HOLD,
    ]
    assert found[1].conditions == ("pregnancy", "dizziness")


@pytest.mark.parametrize(
    ("lesson", "seconds", "barrier"),
    [
        # At or under half of the comfortable hold is allowed (ours).
        ("box", 8.0, None),
        ("box", 7.9, Barrier(BarrierKind.HOLD, hold_seconds=4, most_hold_seconds=3.95)),
        ("box", None, Barrier(BarrierKind.HOLD, hold_seconds=4)),
        ("short-box", 6.0, None),
        ("short-box", 5.0, Barrier(BarrierKind.HOLD, hold_seconds=3, most_hold_seconds=2.5)),
        ("even-count", None, None),  # a pause of a second is no hold
        ("comfortable-hold", None, None),  # it is what measures the hold
        ("belly-breath", None, None),
    ],
)
def test_a_count_holds_at_most_half_of_the_comfortable_hold(
    lesson: str, seconds: float | None, barrier: Barrier | None
) -> None:
    rows = () if seconds is None else (make_result("breath-hold-seconds", seconds),)
    assert bar(lesson, make_person(), rows) == (() if barrier is None else (barrier,))


def test_every_count_with_a_hold_needs_one_on_record() -> None:
    for lesson in read_starter().lessons:
        tempo = lesson.drill.tempo
        holds = tempo is not None and max(tempo.hold_in, tempo.hold_out) > 1
        kinds = [each.kind for each in bar(lesson.id, make_person(), ())]
        assert kinds == ([BarrierKind.HOLD] if holds else []), lesson.id


def test_a_hold_of_somebody_else_or_of_a_later_day_is_none_on_record() -> None:
    others = (make_result("breath-hold-seconds", 60, person="bo-2"),)
    assert [each.kind for each in bar("box", make_person(), others)] == [BarrierKind.HOLD]
    early = bar("box", make_person(), LONG_HOLD, TODAY - timedelta(days=1))
    assert [each.kind for each in early] == [BarrierKind.HOLD]


def make_body(
    reference: LungReference | None = LungReference.FEMALE,
    born: int | None = 1956,
    height: float | None = 160,
    weight: float | None = 60,
) -> Person:
    return Person("ro-1", "Ro", born, reference, height, weight)


def test_a_count_too_slow_for_a_body_is_barred() -> None:
    # By the book (ours are the limits): VA = 0.863 * 0.8 * 3.5 * 200 * 1.3 / 40 = 15.7 L/min over
    # 6 breaths a minute, with 0.12 L of dead space 2.7 L; a woman of 70 and 160 cm has some 2.1 L.
    (barrier,) = bar("even-count", make_body(weight=200))
    assert barrier.kind is BarrierKind.AIR
    assert barrier.air_percent == pytest.approx(100 * 2.7 / 2.1, abs=15)
    assert bar("belly-breath", make_body(weight=200)) == ()


def test_a_count_too_slow_in_a_short_set_is_told_and_not_barred() -> None:
    # Sets under a minute are shown, not flagged (ours): 18.6 L/min at 2.8 MET and 110 kg.
    assert bar("diagonal", make_body(weight=110)) == ()
    told = [each for each in adapt("diagonal", make_body(weight=110)) if each.air_percent]
    assert [each.kind for each in told] == [AdaptationKind.AIR]
    assert told[0].air_percent == pytest.approx(100 * 3.2 / 2.1, abs=15)


@pytest.mark.parametrize(
    "person",
    [
        make_body(reference=None, weight=200),
        make_body(born=None, weight=200),
        make_body(height=None, weight=200),
        make_body(weight=None),
        make_body(born=1936, weight=200),
        make_body(born=2010, weight=200),
        make_body(height=139, weight=200),
        make_body(weight=251),
    ],
)
def test_no_sum_is_made_for_a_body_that_is_not_known_or_out_of_range(person: Person) -> None:
    assert bar("even-count", person) == ()
    kinds = {each.kind for each in adapt("even-count", person)}
    assert AdaptationKind.AIR not in kinds


def test_big_breaths_of_a_long_set_are_told_and_those_of_a_short_one_are_not() -> None:
    # Six breaths of ten seconds are a set of a minute; three are half of one.
    (told,) = adapt("even-count", make_body(weight=95))
    assert told.kind is AdaptationKind.AIR
    assert told.air_percent is not None
    assert 50 <= told.air_percent < 100
    assert adapt("tempo-ladder", make_body(weight=95)) == ()
    assert adapt("even-count", make_body(weight=60)) == ()


@pytest.mark.parametrize(
    ("agreed", "kinds"),
    [
        (None, [AdaptationKind.HANDS_ON]),
        (TODAY, []),
        (date(2026, 12, 1), [AdaptationKind.HANDS_ON]),
    ],
)
def test_without_consent_there_are_words_only(
    agreed: date | None, kinds: list[AdaptationKind]
) -> None:
    person = replace(make_person(), hands_on=agreed)
    assert [each.kind for each in adapt("side-rib-breath", person)] == kinds
    assert adapt("belly-breath", person) == ()


def test_consent_does_not_put_hands_on_sore_ribs() -> None:
    person = replace(make_person("sore-ribs"), hands_on=TODAY)
    (told,) = adapt("side-rib-breath", person)
    assert told.notice is not None
    assert told.notice.id == "hands-on"
    assert "On sore ribs, use neither." in told.text


def test_pregnancy_on_the_back_is_an_adaptation_even_with_a_clinicians_yes() -> None:
    # ACOG, Committee Opinion 804 (2020): avoid long spells flat on the back in later pregnancy.
    for cleared in ({}, {"pregnancy": TODAY}):
        texts = [
            each.text for each in adapt("belly-breath", make_person("pregnancy", cleared=cleared))
        ]
        assert any("In pregnancy, lying on your side will do too." in text for text in texts)


@pytest.mark.parametrize(("weeks", "again"), [(0, ()), (26, ()), (27, ("hernia",))])
def test_a_clinicians_answer_is_shown_and_asked_for_again_after_half_a_year(
    weeks: int, again: tuple[str, ...]
) -> None:
    said = TODAY - timedelta(weeks=weeks)
    person = make_person("hernia", cleared={"hernia": said})
    shown = [each for each in adapt("tail-tuck", person) if each.kind is AdaptationKind.CLEARED]
    assert [each.notice and each.notice.id for each in shown] == [
        "ask-first",
        "belly-and-pelvic-floor",
    ]
    assert {(each.cleared_on, each.ask_again) for each in shown} == {((said,), again)}
    assert bar("tail-tuck", person) == ()


def test_an_answer_of_a_later_day_is_none_yet() -> None:
    person = make_person("hernia", "asthma", cleared={"hernia": TODAY})
    assert list_uncleared(person, TODAY) == ("asthma",)
    assert list_uncleared(person, TODAY - timedelta(days=1)) == ("hernia", "asthma")


@pytest.mark.parametrize(("answer", "barred"), [("no", True), ("chair", False), ("easy", False)])
def test_who_cannot_get_to_the_floor_is_barred_from_it(answer: str, barred: bool) -> None:
    course = read_starter()
    rows = [
        make_result("floor", "easy", day=TODAY - timedelta(days=60)),
        make_result("floor", answer, day=TODAY - timedelta(days=1)),
    ]
    kinds = [
        {
            each.kind
            for each in find_barriers(course, make_person(), rows, course.by_id[name], TODAY)
        }
        for name in ("belly-breath", "crocodile", "all-fours-breath", "sitting-breath")
    ]
    assert kinds == [*([{BarrierKind.ANSWER} if barred else set()] * 3), set()]
    assert not find_barriers(
        course, make_person(), rows, course.by_id["belly-breath"], TODAY - timedelta(days=2)
    )


def test_a_listed_notice_that_is_missing_might_bar_anything() -> None:
    starter = read_starter()
    left = tuple(notice for notice in starter.notices if notice.id != "tingling")
    course = replace(starter, notices=left)
    with pytest.raises(BuilderError, match='the notice "tingling" is missing'):
        find_barriers(course, make_person("dizziness"), (), course.by_id["belly-breath"], TODAY)


def test_a_notice_that_cannot_be_read_might_bar_anything() -> None:
    course = replace(read_starter(), unreadable_notices=frozenset({"face-down", "balance"}))
    lesson = course.by_id["belly-breath"]
    with pytest.raises(BuilderError, match='notice "balance" can\'t be read'):
        find_barriers(course, make_person(), (), lesson, TODAY)
    with pytest.raises(BuilderError, match="might bar a lesson"):
        find_adaptations(course, make_person(), lesson)
