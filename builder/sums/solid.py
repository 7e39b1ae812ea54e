"""What props are made of: boxes, ellipsoids and strips."""

from collections.abc import Callable
from dataclasses import dataclass

from builder.sums.skeleton import Skeleton, Slice
from builder.sums.space import Turn, Vector


@dataclass(frozen=True, slots=True)
class Box:
    """A box: its middle, its axes and half its measures along them."""

    middle: Vector
    axes: Turn
    halves: Vector


@dataclass(frozen=True, slots=True)
class Strip:
    """A band or strap along points; round two limbs where it is a loop."""

    points: tuple[Vector, ...]
    radius: float
    is_loop: bool = False


Solid = Box | Slice | Strip
Placing = Callable[[Skeleton], tuple[Solid, ...]]
