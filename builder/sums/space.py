"""Points and turns in space, as plain tuples; lengths in any one unit, angles in degrees."""

import math

Vector = tuple[float, float, float]
"""x, y and z."""
Turn = tuple[Vector, Vector, Vector]
"""The three columns of a rotation: where it takes the axes x, y and z."""

STILL: Turn = ((1.0, 0.0, 0.0), (0.0, 1.0, 0.0), (0.0, 0.0, 1.0))


def add(*vectors: Vector) -> Vector:
    """Add any number of vectors."""
    x = y = z = 0.0
    for vector in vectors:
        x, y, z = x + vector[0], y + vector[1], z + vector[2]
    return x, y, z


def scale(vector: Vector, factor: float) -> Vector:
    """Make a vector longer or shorter."""
    return vector[0] * factor, vector[1] * factor, vector[2] * factor


def subtract(end: Vector, start: Vector) -> Vector:
    """Return the way from one point to another."""
    return end[0] - start[0], end[1] - start[1], end[2] - start[2]


def dot(first: Vector, second: Vector) -> float:
    """Return the scalar product."""
    return first[0] * second[0] + first[1] * second[1] + first[2] * second[2]


def cross(first: Vector, second: Vector) -> Vector:
    """Return the vector product."""
    return (
        first[1] * second[2] - first[2] * second[1],
        first[2] * second[0] - first[0] * second[2],
        first[0] * second[1] - first[1] * second[0],
    )


def length(vector: Vector) -> float:
    """Return how long a vector is."""
    return math.sqrt(dot(vector, vector))


def distance(first: Vector, second: Vector) -> float:
    """Return how far two points are apart."""
    return length(subtract(first, second))


def unit(vector: Vector) -> Vector:
    """Return the direction of a vector that isn't zero."""
    return scale(vector, 1 / length(vector))


def between(start: Vector, end: Vector, share: float) -> Vector:
    """Return the point at a share of the way."""
    return add(scale(start, 1 - share), scale(end, share))


def apply(turn: Turn, vector: Vector) -> Vector:
    """Turn a vector."""
    (a, b, c), (d, e, f), (g, h, i) = turn
    x, y, z = vector
    return a * x + d * y + g * z, b * x + e * y + h * z, c * x + f * y + i * z


def compose(outer: Turn, *inner: Turn) -> Turn:
    """Return one turn that does the last one first, each in the frame of those before it."""
    for x, y, z in inner:
        outer = apply(outer, x), apply(outer, y), apply(outer, z)
    return outer


def turn_x(degrees: float) -> Turn:
    """Turn y towards z."""
    c, s = math.cos(math.radians(degrees)), math.sin(math.radians(degrees))
    return (1.0, 0.0, 0.0), (0.0, c, s), (0.0, -s, c)


def turn_y(degrees: float) -> Turn:
    """Turn z towards x."""
    c, s = math.cos(math.radians(degrees)), math.sin(math.radians(degrees))
    return (c, 0.0, -s), (0.0, 1.0, 0.0), (s, 0.0, c)


def turn_z(degrees: float) -> Turn:
    """Turn x towards y."""
    c, s = math.cos(math.radians(degrees)), math.sin(math.radians(degrees))
    return (c, s, 0.0), (-s, c, 0.0), (0.0, 0.0, 1.0)
