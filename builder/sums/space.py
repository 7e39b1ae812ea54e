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


def about_x(axes: Turn, degrees: float) -> Turn:
    """Turn a set of axes about its own x: its y goes towards its z."""
    (x, (a, b, c), (d, e, f)) = axes
    cos, sin = math.cos(math.radians(degrees)), math.sin(math.radians(degrees))
    return (
        x,
        (a * cos + d * sin, b * cos + e * sin, c * cos + f * sin),
        (d * cos - a * sin, e * cos - b * sin, f * cos - c * sin),
    )


def about_y(axes: Turn, degrees: float) -> Turn:
    """Turn a set of axes about its own y: its z goes towards its x."""
    ((a, b, c), y, (d, e, f)) = axes
    cos, sin = math.cos(math.radians(degrees)), math.sin(math.radians(degrees))
    return (
        (a * cos - d * sin, b * cos - e * sin, c * cos - f * sin),
        y,
        (a * sin + d * cos, b * sin + e * cos, c * sin + f * cos),
    )


def about_z(axes: Turn, degrees: float) -> Turn:
    """Turn a set of axes about its own z: its x goes towards its y."""
    ((a, b, c), (d, e, f), z) = axes
    cos, sin = math.cos(math.radians(degrees)), math.sin(math.radians(degrees))
    return (
        (a * cos + d * sin, b * cos + e * sin, c * cos + f * sin),
        (d * cos - a * sin, e * cos - b * sin, f * cos - c * sin),
        z,
    )


def turn_z(degrees: float) -> Turn:
    """Turn x towards y."""
    return about_z(STILL, degrees)
