"""Rounds of steps, run in turn (A B A B A B), and the ratios between them with their spread."""

import statistics
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from enum import Enum
from pathlib import Path

from tests.bench.process import BenchError, Usage, run_command

Round = Mapping[str, Usage]
"""What each step of one round took, by its name."""


class Quantity(Enum):
    """What a ratio is of."""

    WALL = "wall"
    CPU = "CPU"
    WORKER_MEMORY = "memory of a worker"

    def of(self, usage: Usage) -> float:
        """Return the quantity of a run."""
        return {
            Quantity.WALL: usage.wall_seconds,
            Quantity.CPU: usage.cpu_seconds,
            Quantity.WORKER_MEMORY: usage.worker_mb,
        }[self]


def do_nothing() -> None:
    """Get nothing ready."""


@dataclass(frozen=True, slots=True)
class Step:
    """One side of a comparison: commands whose time counts, and a proof that they did their work.

    ``prepare`` runs before the clock, ``prove`` after it with all that the commands said; it raises
    BenchError where an output isn't there or isn't what it should be.
    """

    name: str
    commands: tuple[tuple[str, ...], ...]
    prove: Callable[[str], None]
    prepare: Callable[[], None] = field(default=do_nothing)


@dataclass(frozen=True, slots=True)
class Spread:
    """The least, the middle and the most of several figures."""

    least: float
    median: float
    most: float

    @classmethod
    def of(cls, figures: Iterable[float]) -> "Spread":
        """Return the spread of figures; there must be one at least."""
        ordered = sorted(figures)
        return cls(ordered[0], statistics.median(ordered), ordered[-1])


def run_round(steps: Sequence[Step], folder: Path, environment: Mapping[str, str]) -> Round:
    """Run steps one after the other; the first fault ends the round."""
    return {step.name: run_step(step, folder, environment) for step in steps}


def run_step(step: Step, folder: Path, environment: Mapping[str, str]) -> Usage:
    """Run a step's commands and prove that they did their work."""
    step.prepare()
    done = [run_command(words, folder, environment) for words in step.commands]
    usages = [usage for usage, _ in done]
    step.prove("".join(said for _, said in done))
    return sum(usages[1:], start=usages[0])


def find_ratios(rounds: Sequence[Round], top: str, bottom: str, quantity: Quantity) -> Spread:
    """Return the spread of one step ÷ another, each ratio within its own round.

    Raises BenchError where there is nothing to divide by: memory that can't be seen is not 0.
    """
    divided = [(quantity.of(each[top]), quantity.of(each[bottom])) for each in rounds]
    if not divided or any(low <= 0 or high <= 0 for high, low in divided):
        raise BenchError(f"{quantity.value} can't be measured on this machine")
    return Spread.of(high / low for high, low in divided)


def find_medians(rounds: Sequence[Round], step: str) -> Usage:
    """Return the medians of what a step took."""
    used = [each[step] for each in rounds]
    return Usage(
        statistics.median(usage.wall_seconds for usage in used),
        statistics.median(usage.cpu_seconds for usage in used),
        statistics.median(usage.peak_mb for usage in used),
        statistics.median(usage.worker_mb for usage in used),
    )
