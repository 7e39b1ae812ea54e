"""Outlines: hulls hold both circles, curves go through their points."""

import math

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from builder.drawing.figure.outline import Circle, Steps, closed_curve, hull, polygon, surround

circles = st.builds(Circle, st.floats(-50, 50), st.floats(-50, 50), st.floats(0.5, 20))


def list_ends(steps: Steps) -> list[tuple[float, float]]:
    ends: list[tuple[float, float]] = []
    numbers: list[float] = []
    for step in (*steps, "Z"):
        if isinstance(step, str):
            if len(numbers) > 1:
                ends.append((numbers[-2], numbers[-1]))
            numbers = []
        else:
            numbers.append(step)
    return ends


@given(circles, circles)
def test_the_ends_of_a_hull_lie_on_its_circles(first: Circle, second: Circle) -> None:
    apart = math.hypot(first.x - second.x, first.y - second.y)
    assume(apart > abs(first.radius - second.radius) + 0.1)
    for x, y in list_ends(hull(first, second)):
        gaps = [
            abs(math.hypot(x - circle.x, y - circle.y) - circle.radius)
            for circle in (first, second)
        ]
        assert min(gaps) < 1e-6


@given(circles, circles)
def test_the_straight_sides_of_a_hull_touch_neither_circle_twice(
    first: Circle, second: Circle
) -> None:
    apart = math.hypot(first.x - second.x, first.y - second.y)
    assume(apart > abs(first.radius - second.radius) + 0.1)
    a, b, c, d, *_ = list_ends(hull(first, second))
    for (x1, y1), (x2, y2) in ((a, b), (c, d)):
        for circle in (first, second):
            area = (x2 - x1) * (circle.y - y1) - (y2 - y1) * (circle.x - x1)
            far = abs(area) / math.hypot(x2 - x1, y2 - y1)
            assert far == pytest.approx(circle.radius, rel=1e-3, abs=1e-3)


@given(circles, circles)
def test_every_hull_has_the_same_steps_wherever_its_circles_are(
    first: Circle, second: Circle
) -> None:
    letters = [step for step in hull(first, second) if isinstance(step, str)]
    assert letters == ["M", "L", "A", "L", "A", "Z"]


@given(circles, st.floats(0, 0.99), st.floats(0, 0.99), st.floats(0, 2 * math.pi))
def test_a_circle_within_another_leaves_the_outer_one_alone(
    outer: Circle, size: float, off: float, angle: float
) -> None:
    far = off * (1 - size) * outer.radius
    x, y = outer.x + far * math.cos(angle), outer.y + far * math.sin(angle)
    inner = Circle(x, y, size * outer.radius)
    for pair in ((inner, outer), (outer, inner)):
        for x, y in list_ends(hull(*pair)):
            assert math.hypot(x - outer.x, y - outer.y) == pytest.approx(outer.radius)


@given(st.lists(st.tuples(st.integers(-9, 9), st.integers(-9, 9)), min_size=3, max_size=12))
def test_what_surrounds_points_has_none_of_them_outside(points: list[tuple[int, int]]) -> None:
    around = surround([(float(x), float(y)) for x, y in points])
    assume(len(around) > 2)
    assert set(around) <= set(points)
    for (x1, y1), (x2, y2) in zip(around, around[1:] + around[:1], strict=True):
        for x, y in points:
            assert (x2 - x1) * (y - y1) - (y2 - y1) * (x - x1) >= 0


def test_a_closed_curve_goes_through_every_point_and_ends_where_it_began() -> None:
    points = [(0.0, 0.0), (10.0, 0.0), (10.0, 8.0), (0.0, 8.0)]
    steps = closed_curve(points)
    assert list_ends(steps) == [*points, points[0]]
    assert (steps[0], steps[-1], steps.count("C")) == ("M", "Z", 4)


def test_a_polygon_has_straight_sides_and_closes() -> None:
    assert polygon([(0, 0), (1, 0), (1, 1)]) == ["M", 0, 0, "L", 1, 0, "L", 1, 1, "Z"]
