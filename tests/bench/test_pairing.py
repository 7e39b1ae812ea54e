"""Steps run in turn, and each ratio is of one round."""

import os
import sys
from pathlib import Path

import pytest

from tests.bench.pairing import (
    Quantity,
    Spread,
    Step,
    find_medians,
    find_ratios,
    run_round,
)
from tests.bench.process import BenchError, Usage


def take(wall: float, cpu: float = 1, worker: float = 0) -> Usage:
    return Usage(wall, cpu, 50, worker)


def write(word: str) -> tuple[str, ...]:
    return (sys.executable, "-c", f"open('log', 'a').write('{word}'); print('{word}')")


def accept(said: str) -> None:
    assert said


def test_a_spread_has_the_middle_not_the_mean() -> None:
    assert Spread.of([9, 1, 2]) == Spread(1, 2, 9)
    assert Spread.of([1, 2, 3, 8]) == Spread(1, 2.5, 8)


def test_a_ratio_is_formed_within_its_round() -> None:
    rounds = [{"a": take(1), "b": take(2)}, {"a": take(30), "b": take(10)}]
    assert find_ratios(rounds, "a", "b", Quantity.WALL) == Spread(0.5, 1.75, 3)


def test_each_quantity_is_its_own() -> None:
    rounds = [{"a": take(1, 6, 110), "b": take(2, 3, 100)}]
    found = [find_ratios(rounds, "a", "b", quantity).median for quantity in Quantity]
    assert found == [0.5, 2, 1.1]


def test_memory_that_was_not_seen_gives_no_ratio() -> None:
    with pytest.raises(BenchError, match="memory of a worker can't be measured"):
        find_ratios([{"a": take(1), "b": take(1)}], "a", "b", Quantity.WORKER_MEMORY)


def test_medians_are_of_one_step() -> None:
    rounds = [{"a": take(wall), "b": take(50)} for wall in (3, 1, 8)]
    assert find_medians(rounds, "a").wall_seconds == 3


def test_steps_run_in_turn_each_made_ready_and_proved(tmp_path: Path) -> None:
    log = tmp_path / "log"

    def note(sign: str) -> None:
        log.write_text(log.read_text() + sign if log.exists() else sign)

    steps = [
        Step(
            name,
            (write(name), write(name)),
            lambda said: note(f"{said.split()}"),
            lambda: note("<"),
        )
        for name in "AB"
    ]
    for _ in range(2):
        run_round(steps, tmp_path, os.environ)
    assert log.read_text() == "<AA['A', 'A']<BB['B', 'B']" * 2


def test_a_step_that_fails_ends_the_round(tmp_path: Path) -> None:
    fails = Step("A", ((sys.executable, "-c", "raise SystemExit(1)"),), accept)
    with pytest.raises(BenchError):
        run_round([fails, Step("B", (write("B"),), accept)], tmp_path, os.environ)
    assert not (tmp_path / "log").exists()


def test_a_step_without_its_output_ends_the_round(tmp_path: Path) -> None:
    def refuse(said: str) -> None:
        raise BenchError("nothing is there")

    with pytest.raises(BenchError, match="nothing is there"):
        run_round([Step("A", (write("A"),), refuse)], tmp_path, os.environ)
