"""Several weeks in words: each reason as itself, and no proof claimed that there is not."""

from dataclasses import replace
from datetime import date

import pytest

from builder.planning.permission import Barrier, BarrierKind
from builder.planning.weeks.explain import Cause, Shortfall
from builder.planning.weeks.planned import PlannedWeeks
from builder.planning.weeks.problem import (
    ClassDay,
    Hindered,
    Hindrance,
    Step,
    StrandRule,
    Way,
    WeeksProblem,
)
from builder.planning.weeks.schedule import Worth
from builder.planning.weeks.search import Found, find_schedule
from builder.records.weeks_order import Weekday, WeeksOrder
from builder.report.weeks_words import (
    EXPECTATION,
    WeeksView,
    list_help,
    say_proof,
    say_shortfall,
    write_weeks,
)
from tests.planning.starter import make_person, read_starter

PROBLEM = WeeksProblem(
    days=(ClassDay(date(2026, 12, 1), 1), ClassDay(date(2026, 12, 5), 1, is_retest=True)),
    places=2,
    strands=(StrandRule("first-checks", is_check=True), StrandRule("tempo")),
    ways={"ro-1": Way((Step("box", "tempo", (), 1),)), "ro-2": Way()},
)
FOUND = find_schedule(PROBLEM)


def make_view(*shortfalls: Shortfall, found: Found = FOUND) -> WeeksView:
    order = WeeksOrder(
        PROBLEM.days[0].day, "winter", 1, (Weekday.TUESDAY,), 45, PROBLEM.people, ("box",), ("K1",)
    )
    people = {"ro-1": make_person()}
    return WeeksView(read_starter(), people, PlannedWeeks(order, PROBLEM, found, shortfalls))


def test_each_class_day_says_who_works_on_what() -> None:
    lines = write_weeks(make_view()).splitlines()
    at = lines.index("tue 1 Dec 2026, week 1  tempo")
    assert lines[at + 1 : at + 3] == ["    ro-1: box", "    ro-2: practice of what is known"]
    assert "sat 5 Dec 2026, week 1  RETEST  first-checks" in lines
    assert "  ro-1 (Ro): 1 Dec 2026" in lines
    assert "  ro-2: there already" in lines


def test_what_is_only_expected_and_what_is_ours_is_said() -> None:
    text = write_weeks(make_view())
    assert EXPECTATION in text
    assert "(ours, no published source)" in text
    assert "clears nobody" in text


@pytest.mark.parametrize(
    ("bound", "words"),
    [
        (Worth(1, 1, 2), "Not proven: at most 1 person more might reach the aim."),
        (Worth(0, 3, 2), "Not proven: at most 2 lessons more might be brought to readiness."),
        (Worth(0, 1, 5), "Not proven: lessons might be ready earlier, by at most 3 class days"),
        (Worth(0, 1, 2), "Proven: with these class days nobody more"),
    ],
)
def test_no_more_is_said_to_be_proven_than_is(bound: Worth, words: str) -> None:
    schedule = replace(FOUND.schedule, worth=Worth(0, 1, 2))
    assert words in say_proof(Found(schedule, bound))


def test_a_barred_lesson_is_told_with_what_bars_it_and_no_cure() -> None:
    barrier = Barrier(BarrierKind.ASK_FIRST, "pregnancy", ("pregnancy",))
    ground = Hindered("box", "tempo", Hindrance.BARRED, (barrier,))
    shortfall = Shortfall("ro-1", Cause.HINDERED, (ground,))
    said = say_shortfall(make_view(), shortfall)
    assert said == (
        "box is on the way, and barred: no clinician's answer on record for pregnancy: "
        "a licensed clinician comes first"
    )
    assert list_help(shortfall, 45) == ()


def test_what_is_needed_and_what_would_help_is_told() -> None:
    shortfall = Shortfall(
        "ro-1",
        Cause.TOO_FEW_CLASSES,
        missing={"tempo": 1, "load": 3},
        more_weeks=2,
        is_fewest=False,
        more_places=1,
    )
    assert list_help(shortfall, 45) == (
        "still needed after the last class: 1 class of tempo and 3 classes of load",
        "would help: 2 weeks more (fewer might do)",
        "would help: room for 1 strand more in a class, so 57 minutes",
    )
    none = Shortfall("ro-1", Cause.TOO_FEW_CLASSES, missing={"load": 3})
    assert list_help(none, 45)[-1] == "26 weeks more wouldn't be enough"
