"""Demand: what a drill asks on eight axes, each a small whole number.

The ranks order drills against each other; they are ours, built on common practice.
"""

from collections.abc import Iterable
from dataclasses import dataclass, fields
from operator import attrgetter

from builder.course.lesson import Drill
from builder.course.trait import find_traits

_CYCLE_BOUNDS_SECONDS = (10.0, 12.0, 16.0)
_HOLD_BOUNDS_SECONDS = (1.0, 3.0, 4.0, 6.0)


@dataclass(frozen=True, slots=True)
class Demand:
    """The eight axes; 0 asks least."""

    position: int = 0
    tempo: int = 0
    hold: int = 0
    load: int = 0
    range: int = 0
    limbs: int = 0
    rotation: int = 0
    balance: int = 0

    @property
    def ranks(self) -> tuple[int, ...]:
        """Return the eight ranks in the order of AXES."""
        return _take_ranks(self)

    @property
    def total(self) -> int:
        """Return the sum of the ranks, to compare an easier version with a harder one."""
        return sum(self.ranks)

    def risen_over(self, other: "Demand") -> dict[str, int]:
        """Return by how many ranks each axis rises over another demand."""
        steps = zip(AXES, self.ranks, other.ranks, strict=True)
        return {axis: mine - theirs for axis, mine, theirs in steps if mine > theirs}


AXES = tuple(field.name for field in fields(Demand))
_take_ranks = attrgetter(*AXES)


def measure_demand(drill: Drill) -> Demand:
    """Work out what a drill asks on each axis."""
    traits = find_traits(drill)
    tempo = drill.tempo
    hold = 0 if tempo is None else _rank(tempo.longest_hold_seconds, _HOLD_BOUNDS_SECONDS)
    loads = [drill.effort.rank, *(use.prop.load for use in drill.props)]
    return Demand(
        position=drill.position.rank,
        tempo=0 if tempo is None else 1 + _rank(tempo.cycle_seconds, _CYCLE_BOUNDS_SECONDS),
        hold=max(hold, int("breath-hold" in traits)),
        load=max(*loads, int(bool(traits & {"bracing", "hand-resistance", "load"}))),
        range=drill.range.rank,
        limbs=drill.at_once,
        rotation=drill.range.rank if "trunk-rotation" in traits else 0,
        balance=max(drill.position.balance, int("balance" in traits)),
    )


def hardest(demands: Iterable[Demand]) -> Demand:
    """Take the highest rank of every axis; all zero where there is nothing before."""
    rows = [demand.ranks for demand in demands]
    return Demand(*(max(axis) for axis in zip(*rows, strict=True))) if rows else Demand()


def _rank(value: float, bounds: tuple[float, ...]) -> int:
    return sum(value > bound for bound in bounds)
