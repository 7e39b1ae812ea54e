"""The camera: from points in the room to points of the picture, without perspective."""

import math
from dataclasses import dataclass, field

from builder.sums.space import Vector, dot

Point = tuple[float, float]
"""To the right and down, in millimetres."""


@dataclass(frozen=True, slots=True)
class Placing:
    """Where a picture in heights of the body stands on a sheet, and how large it is there."""

    scale: float = 1.0
    left: float = 0.0
    top: float = 0.0

    @property
    def origin(self) -> Point:
        """Return where the room's own beginning stands on the sheet."""
        return self.left, self.top

    def place(self, point: Point) -> Point:
        """Return where a point of the picture stands on the sheet."""
        return self.left + self.scale * point[0], self.top + self.scale * point[1]


@dataclass(frozen=True, slots=True)
class Camera:
    """A view along one direction; ``rise`` 0 looks level, 90 from straight above."""

    rise: float
    scale: float
    """Millimetres to one height of a body."""
    origin: Point = (0.0, 0.0)

    up: Vector = field(init=False)
    """What is up in the picture."""
    towards: Vector = field(init=False)
    """The direction to the viewer."""

    def __post_init__(self) -> None:
        sine, cosine = math.sin(math.radians(self.rise)), math.cos(math.radians(self.rise))
        object.__setattr__(self, "up", (0.0, sine, cosine))
        object.__setattr__(self, "towards", (0.0, -cosine, sine))

    def see(self, point: Vector) -> Point:
        """Return where a point of the room stands in the picture."""
        x = self.origin[0] + self.scale * point[0]
        return x, self.origin[1] - self.scale * dot(point, self.up)

    def nearness(self, point: Vector) -> float:
        """Return how near a point is to the viewer; larger is nearer."""
        return dot(point, self.towards)
