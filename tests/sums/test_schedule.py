"""Schedule: worked by hand, by its laws, and equal to its twin in the browser."""

import random
from itertools import pairwise

from hypothesis import given
from hypothesis import strategies as st

from builder.course.dose import Dose, Sides, TimedDose
from builder.course.tempo import Tempo
from builder.sums.schedule import NATURAL_CYCLE_MS, Event, Kind, Plan, make_plan, schedule
from tests.browser_scripts.node import run_script

FOREVER = 10**9
phases = st.integers(1, 16).map(lambda half: half / 2)
holds = st.integers(0, 12).map(lambda half: half / 2)
tempos = st.one_of(st.none(), st.builds(Tempo, phases, holds, phases, holds))
doses = st.one_of(
    st.builds(
        Dose, st.integers(1, 4), st.integers(1, 12), st.integers(0, 90), st.sampled_from(Sides)
    ),
    st.builds(TimedDose, st.integers(1, 20)),
)


def test_a_drill_with_a_rest_and_two_sides_by_hand() -> None:
    events = schedule(Tempo(4, 1, 3, 0), Dose(1, 2, 30, Sides.EACH), 0, FOREVER)
    assert [
        (e.at_ms, str(e.kind), e.lasts_ms, e.round, e.side, e.breath, e.step) for e in events
    ] == [
        (0, "set", 16_000, 1, 1, 0, ""),
        (0, "phase", 4000, 1, 1, 1, "in"),
        (4000, "phase", 1000, 1, 1, 1, "pause"),
        (5000, "phase", 3000, 1, 1, 1, "out"),
        (8000, "phase", 4000, 1, 1, 2, "in"),
        (12_000, "phase", 1000, 1, 1, 2, "pause"),
        (13_000, "phase", 3000, 1, 1, 2, "out"),
        (16_000, "rest", 30_000, 2, 2, 0, ""),
        (46_000, "set", 16_000, 2, 2, 0, ""),
        (46_000, "phase", 4000, 2, 2, 1, "in"),
        (50_000, "phase", 1000, 2, 2, 1, "pause"),
        (51_000, "phase", 3000, 2, 2, 1, "out"),
        (54_000, "phase", 4000, 2, 2, 2, "in"),
        (58_000, "phase", 1000, 2, 2, 2, "pause"),
        (59_000, "phase", 3000, 2, 2, 2, "out"),
        (62_000, "end", 0, 2, 0, 0, ""),
    ]


def test_sides_that_take_turns_change_with_every_breath() -> None:
    events = schedule(Tempo(3, 0, 3, 0), Dose(2, 4, 10, Sides.ALTERNATE), 0, FOREVER)
    assert [e.side for e in events if e.step == "in"] == [1, 2, 1, 2] * 2
    assert {e.side for e in events if e.kind in {Kind.SET, Kind.REST}} == {0}


def test_at_ones_own_pace_no_phase_begins() -> None:
    events = schedule(None, Dose(2, 6, 30), 0, FOREVER)
    assert [(e.kind, e.at_ms) for e in events] == [
        (Kind.SET, 0),
        (Kind.REST, 6 * NATURAL_CYCLE_MS),
        (Kind.SET, 6 * NATURAL_CYCLE_MS + 30_000),
        (Kind.END, 12 * NATURAL_CYCLE_MS + 30_000),
    ]
    timed = schedule(None, TimedDose(5), 0, FOREVER)
    assert [(e.kind, e.at_ms) for e in timed] == [(Kind.SET, 0), (Kind.END, 300_000)]


def test_a_timed_dose_is_one_round_of_its_minutes() -> None:
    assert make_plan(None, TimedDose(5)) == Plan((), 300_000, 0, 1, 0, Sides.TOGETHER)


def test_the_end_belongs_to_the_window_that_begins_with_it() -> None:
    before = schedule(None, TimedDose(5), 0, 300_000)
    after = schedule(None, TimedDose(5), 300_000, 300_001)
    assert ([e.kind for e in before], [e.kind for e in after]) == ([Kind.SET], [Kind.END])


@given(tempos, doses)
def test_events_follow_each_other_and_end_with_the_plan(
    tempo: Tempo | None, dose: Dose | TimedDose
) -> None:
    plan = make_plan(tempo, dose)
    events = schedule(tempo, dose, 0, FOREVER)
    assert events[0].kind is Kind.SET
    assert (events[-1].kind, events[-1].at_ms) == (Kind.END, plan.end_ms)
    assert all(a.at_ms <= b.at_ms for a, b in pairwise(events))
    parts = [event for event in events if event.kind in {Kind.PHASE, Kind.REST}]
    if plan.phases:
        assert all(a.at_ms + a.lasts_ms == b.at_ms for a, b in pairwise([*parts, events[-1]]))
        breaths = {(event.round, event.breath) for event in events if event.breath}
        assert len(breaths) == plan.rounds * plan.breaths


@given(tempos, doses, st.lists(st.integers(0, 2_000_000), max_size=5))
def test_windows_side_by_side_give_every_event_once(
    tempo: Tempo | None, dose: Dose | TimedDose, cuts: list[int]
) -> None:
    edges = [0, *sorted(cuts), FOREVER]
    pieces: list[Event] = []
    for start, stop in pairwise(edges):
        pieces += schedule(tempo, dose, start, stop)
    assert pieces == list(schedule(tempo, dose, 0, FOREVER))


def test_the_browser_gives_the_same_answers() -> None:
    chance = random.Random(20261125)  # noqa: S311  # the same cases every time
    cases = [_make_case(chance) for _ in range(400)]
    given_ = [{"drill": drill, "start": start, "stop": stop} for _, _, drill, start, stop in cases]
    code = (
        "return given.map((row) => globalThis.tempoleaf.schedule("
        "globalThis.tempoleaf.makePlan(row.drill), row.start, row.stop));"
    )
    answers = run_script(("schedule.js",), code, given_)
    for (tempo, dose, _, start, stop), answer in zip(cases, answers, strict=True):
        assert [
            {
                "at": event.at_ms,
                "kind": event.kind,
                "lasts": event.lasts_ms,
                "round": event.round,
                "side": event.side,
                "breath": event.breath,
                "step": event.step,
            }
            for event in schedule(tempo, dose, start, stop)
        ] == answer


def _make_case(chance: random.Random) -> tuple:
    """Return a tempo and a dose, the same as the page writes them, and a window."""
    start, length = chance.randrange(0, 500_000), chance.choice([100, 5000, FOREVER])
    if chance.random() < 0.1:
        dose: Dose | TimedDose = TimedDose(chance.randint(1, 20))
        drill = {"tempo": [], "sets": 0, "breaths": 0, "rest": 0, "sides": "together"}
        return None, dose, drill | {"minutes": dose.minutes}, start, start + length
    halves = [chance.randint(low, 16) / 2 for low in (1, 0, 1, 0)]
    tempo = None if chance.random() < 0.2 else Tempo(*halves)
    dose = Dose(
        chance.randint(1, 4),
        chance.randint(1, 12),
        chance.choice([0, 1, 30, 60]),
        chance.choice(list(Sides)),
    )
    drill = {
        "tempo": halves if tempo else [],
        "sets": dose.sets,
        "breaths": dose.breaths,
        "rest": dose.rest_seconds,
        "sides": dose.sides,
        "minutes": 0,
    }
    start = chance.choice([0, start])
    return tempo, dose, drill, start, start + length
