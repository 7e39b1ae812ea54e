"""Measurements as a Markdown table."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field

from tests.bench.experiments import Experiment, Ratio
from tests.bench.pairing import Quantity, Round, find_medians, find_ratios
from tests.bench.process import BenchError

HEAD = (
    "| what | N | of | least / **median** / most | at most | met | s wall | s CPU | MB |",
    "| --- | --- | --- | --- | --- | --- | --- | --- | --- |",
)


@dataclass(frozen=True, slots=True)
class Measured:
    """What came out of one experiment at one size."""

    experiment: Experiment
    lessons: int
    rounds: Sequence[Round] = field(default=())
    fault: str = ""
    """Why there is no ratio; then there is none at all, whatever was measured before."""


def write_table(measured: Sequence[Measured]) -> str:
    """Return the lines of all experiments under one head."""
    lines = (line for each in measured for line in list_lines(each))
    return "\n".join((*HEAD, *lines))


def list_lines(measured: Measured) -> Iterator[str]:
    """Yield a line for each ratio and each quantity that it is of."""
    for ratio in measured.experiment.ratios:
        for quantity in ratio.quantities:
            yield _write_line(measured, ratio, quantity)


def is_met(measured: Measured, ratio: Ratio, quantity: Quantity) -> bool | None:
    """Tell whether the median is what it should be at most; None where there is no goal."""
    goal = ratio.goals.get(measured.lessons)
    spread = find_ratios(measured.rounds, ratio.top, ratio.bottom, quantity)
    return None if goal is None else spread.median <= goal


def _write_line(measured: Measured, ratio: Ratio, quantity: Quantity) -> str:
    begin = f"| {ratio.title} | {measured.lessons:,} | {quantity.value} |"
    goal = ratio.goals.get(measured.lessons)
    aim = "–" if goal is None else f"{goal:.2f}"
    try:
        if measured.fault:
            raise BenchError(measured.fault)
        spread = find_ratios(measured.rounds, ratio.top, ratio.bottom, quantity)
    except BenchError as fault:
        said = str(fault).splitlines()[0].replace("|", "/")
        return f"{begin} not measured: {said} | {aim} | – | – | – | – |"
    found = f"{spread.least:.3f} / **{spread.median:.3f}** / {spread.most:.3f}"
    met = {None: "–", True: "yes", False: "no"}[is_met(measured, ratio, quantity)]
    return f"{begin} {found} | {aim} | {met} | {_write_sides(measured, ratio, quantity)} |"


def _write_sides(measured: Measured, ratio: Ratio, quantity: Quantity) -> str:
    """Return what both sides took, in the middle."""
    sides = [find_medians(measured.rounds, name) for name in (ratio.top, ratio.bottom)]
    of_worker = quantity is Quantity.WORKER_MEMORY
    memory = [side.worker_mb if of_worker else side.peak_mb for side in sides]
    columns = (
        " ÷ ".join(f"{side.wall_seconds:.2f}" for side in sides),
        " ÷ ".join(f"{side.cpu_seconds:.2f}" for side in sides),
        " ÷ ".join(f"{each:.0f}" for each in memory),
    )
    return " | ".join(columns)


def write_facts(facts: Mapping[str, str]) -> str:
    """Return the machine's facts in one line."""
    return "; ".join(f"{name} {fact}" for name, fact in facts.items())
