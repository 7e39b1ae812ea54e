"""How far a job is: nothing at first, then paces, a line in ten seconds, never on stdout."""

from dataclasses import dataclass, field

import pytest

from builder.work.progress import SILENT, Lines, Pace, Stages, say_span, watch


@dataclass
class Clock:
    """A clock that goes when it is told to."""

    now: float = 100.0
    shown: list[Pace | None] = field(default_factory=list)

    def __call__(self) -> float:
        return self.now


@pytest.mark.parametrize(
    ("pace", "said"),
    [
        (Pace("cards", 120, 400, 8.45), "cards: 120 of 400, 14.2 a second, 20 s left"),
        (Pace("sheets", 0, 9, 3.0), "sheets: 0 of 9"),
        (Pace("sheets", 9, 9, 3.0), "sheets: 9 of 9, 3.0 a second, 0 s left"),
        (Pace("sheets", 900, 1000, 10.0, 880), "sheets: 900 of 1000, 2.0 a second, 50 s left"),
        (Pace("sheets", 880, 1000, 10.0, 880), "sheets: 880 of 1000"),
        (Pace("proof", 0, 0, 12.2), "proof: 12 s so far"),
    ],
)
def test_a_pace_says_how_many_how_fast_and_how_long_yet(pace: Pace, said: str) -> None:
    assert pace.say() == said


@pytest.mark.parametrize(
    ("seconds", "said"), [(0, "0 s"), (59, "59 s"), (61, "1 min 1 s"), (36_061, "10 h 1 min")]
)
def test_a_time_is_said_in_the_two_units_that_matter(seconds: int, said: str) -> None:
    assert say_span(seconds) == said


def test_nothing_is_shown_in_the_first_two_seconds() -> None:
    clock = Clock()
    stages = Stages(clock.shown.append, clock)
    for _ in range(3):
        stages.tell("cards", 1, 2)
        clock.now += 0.6
    stages.close()
    assert clock.shown == []


def test_after_that_each_stage_is_shown_from_its_own_beginning_and_ended() -> None:
    clock = Clock()
    stages = Stages(clock.shown.append, clock)
    stages.tell("reading")
    clock.now += 5
    stages.tell("cards", 0, 4)
    clock.now += 2
    stages.tell("cards", 4, 4)
    stages.tell("")
    stages.look()
    stages.close()
    assert clock.shown == [Pace("cards", 0, 4, 0.0), Pace("cards", 4, 4, 2.0), None]


def test_a_stage_that_tells_nothing_is_shown_when_somebody_looks() -> None:
    clock = Clock()
    stages = Stages(clock.shown.append, clock)
    stages.tell("proof")
    clock.now += 2
    stages.look()
    assert clock.shown == [Pace("proof", 0, 0, 2.0)]


def test_a_line_comes_once_in_ten_seconds() -> None:
    clock, written = Clock(), list[str]()
    lines = Lines(written.append, clock)
    for done in range(25):
        lines.show(Pace("cards", done, 25, float(done)))
        clock.now += 1
    assert [line.split(",")[0] for line in written] == [
        *("cards: 0 of 25", "cards: 10 of 25", "cards: 20 of 25"),
    ]


def tell_and_fail(shown: list[Pace | None]) -> None:
    with watch(shown.append) as progress:
        progress.tell("cards", 1, 2)
        raise ZeroDivisionError


def test_a_watch_ends_with_its_job_and_passes_its_error_on() -> None:
    shown: list[Pace | None] = []
    with pytest.raises(ZeroDivisionError):
        tell_and_fail(shown)
    assert shown == []
    SILENT.tell("cards", 1, 2)
