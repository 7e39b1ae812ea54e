"""The camera: from points in the room to points of the picture, without perspective."""

import math
from dataclasses import dataclass

from builder.sums.space import Vector, dot

Point = tuple[float, float]
"""To the right and down, in millimetres."""


@dataclass(frozen=True, slots=True)
class Camera:
    """A view along one direction; ``rise`` 0 looks level, 90 from straight above."""

    rise: float
    scale: float
    """Millimetres to one height of a body."""
    origin: Point = (0.0, 0.0)

    @property
    def up(self) -> Vector:
        """Return what is up in the picture."""
        angle = math.radians(self.rise)
        return 0.0, math.sin(angle), math.cos(angle)

    @property
    def towards(self) -> Vector:
        """Return the direction to the viewer."""
        angle = math.radians(self.rise)
        return 0.0, -math.cos(angle), math.sin(angle)

    def see(self, point: Vector) -> Point:
        """Return where a point of the room stands in the picture."""
        x = self.origin[0] + self.scale * point[0]
        return x, self.origin[1] - self.scale * dot(point, self.up)

    def nearness(self, point: Vector) -> float:
        """Return how near a point is to the viewer; larger is nearer."""
        return dot(point, self.towards)
