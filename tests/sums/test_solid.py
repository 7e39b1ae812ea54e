"""Solids: props at hand in every position, upright, turning with the body, as large as real ones.

Sizes in cm for a body of 175 cm: common practice.
"""

import math

import pytest

from builder.course.base_poses import BASE_POSES
from builder.sums.solid import Box, Solid, Strip
from builder.sums.solids import PLACINGS
from builder.sums.space import apply, dot, length, turn_z
from tests.sums.at_rest import HEIGHT_CM, stand

CASES = [(prop, how) for prop, placings in PLACINGS.items() for how in placings]
TURNING = [(prop, how) for prop, how in CASES if prop not in ("mat", "bag")]
"""A mat lies along the picture, and a bag hangs as it is seen best, wherever a body faces."""
SIZES = [
    ("ball", "on-belly", 0, (27, 27, 27)),
    ("ball", "pinned", 0, (27, 27, 27)),
    ("ball", "in-hands", 0, (27, 27, 27)),
    ("block", "on-low-back", 0, (23, 15, 8)),
    ("block", "between-knees", 0, (23, 15)),
    ("pillow", "under-head", 0, (30, 42)),
    ("pillow", "under-belly", 0, (35, 70)),
    ("pillow", "between-knees", 0, (23, 15)),
    ("pillow", "head-and-knees", 1, (38, 15)),
    ("pillow", "seat-and-chest", 0, (31, 42, 12)),
    ("pillow", "seat-and-chest", 1, (96, 38)),
    ("towel", "under-knees", 0, (28, 38, 3)),
    ("towel", "under-hands", 0, (21, 56, 3)),
    ("timer", "left-hand", 0, (16, 4, 16)),
    ("timer", "left-hand", 1, (4, 3, 4)),
    ("bag", "left-hand", 2, (21, 10, 21)),
]
"""A prop, how it lies, which of its solids, and its measures."""
BANDS = [
    ("loop-band", "round-shins", 4),
    ("loop-band", "round-thighs", 4),
    ("long-band", "between-hands", 4),
    ("strap", "left-foot", 4),
    ("strap", "between-hands", 4),
    ("bag", "right-hand", 2),
    ("timer", "right-hand", 1),
]
"""A prop that holds strips, how it lies, and how broad they are."""


def numbers(solid: Solid) -> list[float]:
    if isinstance(solid, Strip):
        return [part for point in solid.points for part in point] + [solid.radius]
    sizes = solid.halves if isinstance(solid, Box) else solid.radii
    return [*solid.middle, *sizes, *(part for axis in solid.axes for part in axis)]


@pytest.mark.parametrize("base", sorted(BASE_POSES))
@pytest.mark.parametrize(("prop", "how"), CASES)
def test_every_prop_can_be_laid_in_every_position(base: str, prop: str, how: str) -> None:
    try:
        solids = PLACINGS[prop][how](stand(base))
    except IndexError:
        pytest.fail(f"{prop} {how} has no place in {base}")
    assert solids
    assert all(math.isfinite(number) for solid in solids for number in numbers(solid))


@pytest.mark.parametrize(("prop", "how"), CASES)
def test_boxes_have_upright_axes(prop: str, how: str) -> None:
    for solid in PLACINGS[prop][how](stand("all-fours")):
        if isinstance(solid, Box):
            x, y, z = solid.axes
            assert [length(axis) for axis in solid.axes] == pytest.approx([1, 1, 1])
            assert [dot(x, y), dot(y, z), dot(z, x)] == pytest.approx([0, 0, 0], abs=1e-9)


def place(prop: str, how: str, base: str, facing: float = 0.0) -> tuple[Solid, ...]:
    return PLACINGS[prop][how](stand(base, facing))


@pytest.mark.parametrize(("prop", "how"), TURNING)
@pytest.mark.parametrize("base", ["half-kneeling", "side-lying"])
def test_props_turn_with_the_body(base: str, prop: str, how: str) -> None:
    quarter = turn_z(90)
    for before, after in zip(
        place(prop, how, base), place(prop, how, base, facing=90), strict=True
    ):
        firsts, seconds = (
            solid.points if isinstance(solid, Strip) else (solid.middle,)
            for solid in (before, after)
        )
        for first, second in zip(firsts, seconds, strict=True):
            assert second == pytest.approx(apply(quarter, first), abs=1e-6)


@pytest.mark.parametrize(("prop", "how", "index", "sizes"), SIZES)
def test_props_are_as_large_as_real_ones(
    prop: str, how: str, index: int, sizes: tuple[float, ...]
) -> None:
    solid = place(prop, how, "rest-pose" if how == "seat-and-chest" else "side-lying")[index]
    assert not isinstance(solid, Strip)
    halves = solid.halves if isinstance(solid, Box) else solid.radii
    whole = [half * 2 * HEIGHT_CM for half in halves[: len(sizes)]]
    assert whole == pytest.approx(sizes, abs=1)


@pytest.mark.parametrize(("prop", "how", "breadth"), BANDS)
def test_bands_and_straps_are_as_broad_as_real_ones(prop: str, how: str, breadth: float) -> None:
    strips = [solid for solid in place(prop, how, "sitting") if isinstance(solid, Strip)]
    assert strips
    for strip in strips:
        assert strip.radius * 2 * HEIGHT_CM == pytest.approx(breadth, abs=0.5)
