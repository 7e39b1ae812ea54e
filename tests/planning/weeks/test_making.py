"""From a file for several weeks and the records to the problem of planning them."""

from collections.abc import Mapping
from datetime import date, timedelta

import pytest

from builder.course.graph import find_before
from builder.planning.permission import Barrier, BarrierKind
from builder.planning.standing import Standing, find_standing
from builder.planning.weeks.making import find_first_day, list_days, make_problem, make_way
from builder.planning.weeks.pace import count_classes, find_pace
from builder.planning.weeks.problem import Hindrance, count_places
from builder.records.attendance import Attendance, Outcome
from builder.records.program import Program
from builder.records.weeks_order import Weekday, WeeksOrder
from tests.planning.starter import TODAY, make_person, read_starter

ORDER = WeeksOrder(
    first_day=date(2026, 12, 1),
    name="winter",
    weeks=5,
    weekdays=(Weekday.TUESDAY, Weekday.SATURDAY),
    minutes=60,
    people=("ro-1",),
    aim=("belly-breath",),
    coaches=("K1",),
)
EVERY = list(read_starter().vocabulary.strands)


def stand(rows: Mapping[str, str], placed: tuple[str, ...] = ()) -> Standing:
    """Return where outcomes lead, one letter for each day in a row: r, a or e."""
    words = {"r": Outcome.READY, "a": Outcome.AGAIN, "e": Outcome.EASIER}
    attendance = [
        Attendance(TODAY - timedelta(days=9 - number), "ro-1", lesson, words[letter])
        for lesson, letters in rows.items()
        for number, letter in enumerate(letters)
    ]
    return find_standing(read_starter(), attendance, placed, TODAY)


@pytest.mark.parametrize(
    ("rows", "pace"),
    [
        ({}, 2),
        ({"belly-breath": "rr"}, 2),
        ({"belly-breath": "aarr"}, 4),
        ({"belly-breath": "aarrrr"}, 4),  # what comes after it was known is no more tries
        ({"belly-breath": "aarr", "side-rib-breath": "rr", "box": "aaaaaa"}, 3),
        ({"belly-breath": "arr", "side-rib-breath": "rr"}, 3),  # 2.5, rounded up
        ({"ready-to-start": "aaaar"}, 2),  # a check is no drill
    ],
)
def test_the_pace_is_the_mean_of_what_drills_took(rows: dict[str, str], pace: int) -> None:
    assert find_pace(read_starter(), stand(rows)) == pace


@pytest.mark.parametrize(
    ("rows", "lesson", "classes"),
    [
        ({}, "box", 3),
        ({}, "ready-to-start", 1),
        ({"box": "a"}, "box", 2),
        ({"box": "ar"}, "box", 1),
        ({"box": "aaaa"}, "box", 2),
        ({"box": "aaar"}, "box", 1),
    ],
)
def test_what_was_begun_counts(rows: dict[str, str], lesson: str, classes: int) -> None:
    assert count_classes(read_starter().by_id[lesson], stand(rows), pace=3) == classes


def test_the_way_holds_all_that_the_aim_builds_on_and_nothing_else() -> None:
    course = read_starter()
    way = make_way(course, ("full-exhale",), stand({}), {}, strands=EVERY)
    names = [step.lesson_id for step in way.steps]
    assert set(names) == {"full-exhale", *find_before(course.graph, "full-exhale")}
    assert names == [name for name in course.teaching_order if name in names]
    assert all(set(step.after) == set(course.graph[step.lesson_id]) for step in way.steps)


def test_what_is_known_is_off_the_way() -> None:
    standing = stand({"full-exhale": "rr"}, placed=("full-exhale",))
    way = make_way(read_starter(), ("long-exhale",), standing, {}, strands=EVERY)
    assert [step.lesson_id for step in way.steps] == ["even-count", "long-exhale"]
    assert way.steps[0].after == ()


def test_a_barred_lesson_ends_the_way_with_its_ground() -> None:
    barriers = {"even-count": (Barrier(BarrierKind.STOP, "some-notice", ("reflux",)),)}
    standing = stand({}, placed=("full-exhale",))
    way = make_way(read_starter(), ("long-exhale",), standing, barriers, strands=EVERY)
    assert [step.lesson_id for step in way.steps] == ["full-exhale"]
    assert [(each.lesson_id, each.hindrance) for each in way.hindered] == [
        ("even-count", Hindrance.BARRED)
    ]
    assert way.hindered[0].barriers == barriers["even-count"]
    assert way.behind == ("long-exhale",)
    assert not way.is_open
    assert make_way(read_starter(), ("long-exhale",), standing, {}, strands=EVERY).is_open


def test_a_strand_that_isnt_worked_on_ends_the_way() -> None:
    way = make_way(read_starter(), ("even-count",), stand({}), {}, strands=["tempo"])
    assert {each.hindrance for each in way.hindered} == {Hindrance.OTHER_STRAND}
    assert "even-count" in way.behind


def test_after_too_much_an_easier_one_comes_first() -> None:
    rows = {"side-rib-breath": "ee"}
    standing = stand(rows, placed=("side-rib-breath",))
    assert standing.too_much == ("side-rib-breath",)
    way = make_way(read_starter(), ("side-rib-breath",), standing, {}, strands=EVERY)
    assert way.steps[-1].after == standing.set_back[:1] == (way.steps[-2].lesson_id,)


def test_a_retest_comes_on_the_first_class_day_of_every_second_week() -> None:
    retests = [day.day for day in list_days(ORDER) if day.is_retest]
    assert retests[:3] == [date(2026, 12, 8), date(2026, 12, 22), date(2027, 1, 5)]


@pytest.mark.parametrize(("minutes", "places"), [(10, 1), (33, 1), (34, 2), (60, 4), (90, 6)])
def test_a_strand_has_room_in_every_twelve_minutes_beyond_ten(minutes: int, places: int) -> None:
    assert count_places(minutes) == places


def test_work_has_its_days_of_rest_and_checks_come_at_retests() -> None:
    program = Program({"ro-1": make_person()})
    problem = make_problem(read_starter(), program, ORDER, TODAY)
    rules = {rule.id: rule for rule in problem.strands}
    assert rules["brace"].needs_day_between
    assert rules["brace"].most_days_a_week == 3  # Garber and others 2011: 2 to 3 days a week
    assert not rules["breath"].needs_day_between
    assert rules["first-checks"].is_check
    assert len(problem.days) == 10
    assert problem.later[0].day == date(2027, 1, 5)


def test_a_day_whose_attendance_is_noted_is_over() -> None:
    row = Attendance(TODAY, "ro-1", "belly-breath", Outcome.READY)
    assert find_first_day(Program(), ORDER, TODAY) == TODAY
    assert find_first_day(Program(attendance=(row,)), ORDER, TODAY) == TODAY + timedelta(days=1)
