"""The camera: what is up, what is near, and where a point stands."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from builder.drawing.figure.camera import Camera
from builder.sums.space import Vector, dot, length

points = st.tuples(st.floats(-2, 2), st.floats(-2, 2), st.floats(-2, 2))


def test_a_level_view_shows_ahead_to_the_right_and_up_above() -> None:
    camera = Camera(rise=0, scale=100)
    assert camera.see((1, 0, 0)) == pytest.approx((100, 0))
    assert camera.see((0, 0, 1)) == pytest.approx((0, -100))
    assert camera.see((0, 1, 0)) == pytest.approx((0, 0))


def test_from_above_the_far_side_is_up_and_height_is_nearness() -> None:
    camera = Camera(rise=90, scale=100)
    assert camera.see((0, 1, 0)) == pytest.approx((0, -100))
    assert camera.see((0, 0, 1)) == pytest.approx((0, 0))
    assert camera.nearness((0, 0, 1)) > camera.nearness((0, 0, 0))


def test_from_the_side_the_bodys_right_is_nearer_than_its_left() -> None:
    camera = Camera(rise=12, scale=1)
    assert camera.nearness((0, -0.1, 0)) > camera.nearness((0, 0.1, 0))


@given(points, points, st.floats(0, 90), st.floats(1, 500))
def test_no_length_looks_longer_than_it_is(
    first: Vector, second: Vector, rise: float, scale: float
) -> None:
    camera = Camera(rise, scale, (3.0, 4.0))
    seen = [b - a for a, b in zip(camera.see(first), camera.see(second), strict=True)]
    way = [b - a for a, b in zip(first, second, strict=True)]
    assert sum(part * part for part in seen) <= scale**2 * sum(p * p for p in way) + 1e-6


@given(st.floats(0, 90))
def test_up_and_towards_are_upright_on_each_other(rise: float) -> None:
    camera = Camera(rise, 1)
    assert length(camera.up) == pytest.approx(1)
    assert length(camera.towards) == pytest.approx(1)
    assert dot(camera.up, camera.towards) == pytest.approx(0, abs=1e-12)
