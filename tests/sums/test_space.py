"""Points and turns in space: lengths and right angles stay."""

import math
from collections.abc import Callable

import pytest
from hypothesis import given
from hypothesis import strategies as st

from builder.sums.space import (
    STILL,
    Turn,
    Vector,
    about_x,
    about_y,
    about_z,
    add,
    apply,
    between,
    cross,
    distance,
    dot,
    length,
    scale,
    subtract,
    turn_z,
    unit,
)

numbers = st.floats(-10, 10)
vectors = st.tuples(numbers, numbers, numbers)
angles = st.floats(-360, 360)
turns = st.builds(lambda a, b, c: about_x(about_y(turn_z(a), b), c), angles, angles, angles)
ways_about = st.sampled_from([about_x, about_y, about_z])


def is_orthonormal(turn: Turn) -> bool:
    """Tell whether three axes are of length 1, upright on each other and right-handed."""
    x, y, z = turn
    lengths = [length(axis) for axis in turn]
    crossings = [dot(x, y), dot(y, z), dot(z, x)]
    return (
        lengths == pytest.approx([1, 1, 1])
        and crossings == pytest.approx([0, 0, 0], abs=1e-9)
        and cross(x, y) == pytest.approx(z, abs=1e-9)
    )


@given(turns)
def test_turns_stay_orthonormal(turn: Turn) -> None:
    assert is_orthonormal(turn)


@pytest.mark.parametrize("about", [about_x, about_y, about_z])
def test_tilted_axes_stay_orthonormal(about: Callable[[Turn, float], Turn]) -> None:
    assert is_orthonormal(about(about_x(about_y(turn_z(20), 30), 40), 50))


@given(turns, vectors, vectors)
def test_a_turn_keeps_lengths_and_angles(turn: Turn, first: Vector, second: Vector) -> None:
    assert dot(apply(turn, first), apply(turn, second)) == pytest.approx(
        dot(first, second), abs=1e-6
    )


@pytest.mark.parametrize(
    ("turn", "start", "end"),
    [
        (about_x(STILL, 90), (0, 1, 0), (0, 0, 1)),
        (about_y(STILL, 90), (0, 0, 1), (1, 0, 0)),
        (turn_z(90), (1, 0, 0), (0, 1, 0)),
        (STILL, (1, 2, 3), (1, 2, 3)),
    ],
)
def test_turns_lead_one_axis_to_the_next(turn: Turn, start: Vector, end: Vector) -> None:
    assert apply(turn, start) == pytest.approx(end, abs=1e-12)


@given(turns, ways_about, angles, vectors)
def test_axes_turn_about_their_own(
    outer: Turn, about: Callable[[Turn, float], Turn], degrees: float, way: Vector
) -> None:
    inner = about(STILL, degrees)
    assert apply(about(outer, degrees), way) == pytest.approx(
        apply(outer, apply(inner, way)), abs=1e-9
    )


@given(vectors, vectors)
def test_the_vector_product_is_upright_on_both(first: Vector, second: Vector) -> None:
    product = cross(first, second)
    assert dot(product, first) == pytest.approx(0, abs=1e-6)
    assert dot(product, second) == pytest.approx(0, abs=1e-6)


@given(vectors, vectors, st.floats(0, 1))
def test_a_point_between_is_its_share_of_the_way(start: Vector, end: Vector, share: float) -> None:
    point = between(start, end, share)
    assert distance(start, point) == pytest.approx(share * distance(start, end), abs=1e-6)
    assert add(start, subtract(end, start)) == pytest.approx(end)


def test_a_direction_has_length_one() -> None:
    assert unit((3.0, 0.0, 4.0)) == pytest.approx((0.6, 0.0, 0.8))
    assert length(scale((1.0, 1.0, 1.0), 2)) == pytest.approx(2 * math.sqrt(3))
