"""Props: where each lies on, under or between parts of a body."""

from collections.abc import Mapping

from builder.sums.furniture import (
    find_mat,
    stand_chair_ahead,
    stand_chair_behind,
    stand_chair_beside,
    stand_chair_step_ahead,
    stand_chair_under,
    stand_wall,
)
from builder.sums.skeleton import SIDES, Skeleton, Slice, lowest
from builder.sums.solid import Box, Placing, Solid, Strip
from builder.sums.space import (
    STILL,
    Vector,
    add,
    between,
    cross,
    distance,
    dot,
    scale,
    subtract,
    turn_z,
    unit,
)
from builder.sums.spots import BALL_RADIUS, pinned_ball, planted

_BLOCK_HALVES = (0.066, 0.044, 0.022)
_LEG_EDGE = 0.022
"""From the middle of a leg to where a band turns round it."""


def _round(middle: Vector, radius: float = BALL_RADIUS) -> tuple[Solid, ...]:
    return (Slice(middle, STILL, (radius, radius, radius)),)


def _ball_on_belly(body: Skeleton) -> tuple[Solid, ...]:
    piece = body.trunk[3]
    return _round(add(piece.middle, scale(piece.axes[0], piece.radii[0] + BALL_RADIUS)))


def _ball_in_hands(body: Skeleton) -> tuple[Solid, ...]:
    return _round(between(body.at("left-palm"), body.at("right-palm"), 0.5))


def _block_on_low_back(body: Skeleton) -> tuple[Solid, ...]:
    piece = body.trunk[3]
    out = scale(piece.axes[0], -piece.radii[0] - _BLOCK_HALVES[2])
    long, flat, thick = piece.axes[2], piece.axes[1], piece.axes[0]
    return (Box(add(piece.middle, out), (flat, long, thick), _BLOCK_HALVES),)


def _between_knees(body: Skeleton) -> tuple[Solid, ...]:
    return _between_legs(body, 0.0, 0.066)


def _between_shins(body: Skeleton) -> tuple[Solid, ...]:
    """Lie from the knees down, as a pillow does."""
    return _between_legs(body, 0.4, 0.11)


def _between_legs(body: Skeleton, share: float, half: float) -> tuple[Solid, ...]:
    """Fill the gap between both legs, a share of the way from the knees to the ankles."""
    left, right = body.at("left-knee"), body.at("right-knee")
    across = unit(subtract(left, right))
    way = subtract(body.at("right-ankle"), right)
    along = unit(subtract(unit(way), scale(across, dot(unit(way), across))))
    middle = add(between(left, right, 0.5), scale(way, share))
    gap = max(0.01, distance(left, right) / 2 - 0.034)
    return (Box(middle, (along, cross(across, along), across), (half, 0.044, gap)),)


def _cushion(middle: Vector, top: float, radii: tuple[float, float]) -> tuple[Solid, ...]:
    half = max(top / 2, 0.010)
    return (Slice((middle[0], middle[1], half), STILL, (*radii, half)),)


def _under_head(body: Skeleton) -> tuple[Solid, ...]:
    middle = body.head.middle
    return _cushion(middle, middle[2] - 0.034, (0.085, 0.12))


def _under_belly(body: Skeleton) -> tuple[Solid, ...]:
    piece = body.trunk[3]
    return _cushion(piece.middle, lowest(piece) + 0.02, (0.10, 0.20))


def _under_seat_and_chest(body: Skeleton) -> tuple[Solid, ...]:
    """Lie over the heels of one who kneels, and lengthwise from the belly to the hands."""
    axes = turn_z(body.facing)
    heels = between(body.at("left-ankle"), body.at("right-ankle"), 0.5)
    seat = between(heels, body.trunk[0].middle, 0.45)
    belly, head = body.trunk[2].middle, body.head.middle
    x, y, _ = between(belly, head, 0.55)
    half = max(lowest(body.trunk[4]) / 2, 0.010)
    return (
        Slice(seat, axes, (0.09, 0.12, 0.035)),
        Slice((x, y, half), axes, (0.75 * distance(belly, head), 0.11, half)),
    )


def _under_knees(body: Skeleton) -> tuple[Solid, ...]:
    """Lie under both knees, or under the one that is down."""
    knees = [body.at(f"{side}-knee") for side in SIDES]
    lowest_knee = min(height for _, _, height in knees)
    down = [knee for knee in knees if knee[2] - lowest_knee < 0.03]
    middle = between(down[0], down[-1], 0.5)
    return (Slice((middle[0], middle[1], 0.008), turn_z(body.facing), (0.08, 0.11, 0.008)),)


def _under_hands(body: Skeleton) -> tuple[Solid, ...]:
    """Lie where both hands are on all fours, under their heels."""
    left, right = (planted(body, side, 0.0)[0] for side in SIDES)
    heels = scale(turn_z(body.facing)[0], -0.02)
    x, y, _ = add(between(left, right, 0.5), heels)
    return (Slice((x, y, 0.008), turn_z(body.facing), (0.06, 0.16, 0.008)),)


def _loop(body: Skeleton, joint: str, end: str, share: float) -> tuple[Solid, ...]:
    left, right = (
        between(body.at(f"{side}-{joint}"), body.at(f"{side}-{end}"), share) for side in SIDES
    )
    beyond = scale(unit(subtract(left, right)), _LEG_EDGE)
    return (Strip((add(left, beyond), subtract(right, beyond)), 0.012, is_loop=True),)


def _strap(body: Skeleton, foot: str) -> tuple[Solid, ...]:
    """Lead from both hands to the sole of a foot."""
    hands = between(body.at("left-palm"), body.at("right-palm"), 0.5)
    arch = between(body.at(f"{foot}-heel"), body.at(f"{foot}-toe"), 0.6)
    return (Strip((hands, arch), 0.011),)


def _between_hands(body: Skeleton) -> tuple[Solid, ...]:
    return (Strip((body.at("left-palm"), body.at("right-palm")), 0.012),)


def _bag(body: Skeleton, side: str) -> tuple[Solid, ...]:
    x, y, z = body.at(f"{side}-palm")
    sack = Box((x, y, z - 0.13), STILL, (0.06, 0.03, 0.06))
    return (
        Strip(((x, y, z), (x - 0.04, y, z - 0.07)), 0.006),
        Strip(((x, y, z), (x + 0.04, y, z - 0.07)), 0.006),
        sack,
    )


def _timer(body: Skeleton, side: str) -> tuple[Solid, ...]:
    palm, tip = body.at(f"{side}-palm"), body.at(f"{side}-fingers")
    ahead, left, up = turn_z(body.facing)
    middle = add(between(palm, tip, 0.5), scale(up, 0.060))
    knob = Box(add(middle, scale(up, 0.054)), (ahead, left, up), (0.010, 0.008, 0.010))
    dial = Slice(middle, (ahead, left, up), (0.046, 0.010, 0.046))
    face = add(middle, scale(left, 0.012 * SIDES[side]))
    hands = (scale(up, 0.030), scale(ahead, 0.020))
    return (dial, knob, *(Strip((face, add(face, hand)), 0.002) for hand in hands))


PLACINGS: Mapping[str, Mapping[str, Placing]] = {
    "mat": {"under": lambda body: (find_mat((body,)),)},
    "ball": {
        "on-belly": _ball_on_belly,
        "pinned": lambda body: _round(pinned_ball(body)),
        "in-hands": _ball_in_hands,
    },
    "block": {"on-low-back": _block_on_low_back, "between-knees": _between_knees},
    "pillow": {
        "under-head": _under_head,
        "under-belly": _under_belly,
        "under-knees": _under_knees,
        "between-knees": _between_knees,
        "seat-and-chest": _under_seat_and_chest,
        "head-and-knees": lambda body: (*_under_head(body), *_between_shins(body)),
    },
    "towel": {
        "under-knees": _under_knees,
        "under-head": _under_head,
        "under-hands": _under_hands,
    },
    "chair": {
        "seat": stand_chair_under,
        "ahead": stand_chair_ahead,
        "step-ahead": stand_chair_step_ahead,
        "behind": stand_chair_behind,
        "at-left": lambda body: stand_chair_beside(body, "left"),
        "at-right": lambda body: stand_chair_beside(body, "right"),
    },
    "loop-band": {
        "round-shins": lambda body: _loop(body, "knee", "ankle", 0.12),
        "round-thighs": lambda body: _loop(body, "hip", "knee", 0.85),
    },
    "long-band": {"between-hands": _between_hands},
    "strap": {
        "left-foot": lambda body: _strap(body, "left"),
        "right-foot": lambda body: _strap(body, "right"),
        "between-hands": _between_hands,
    },
    "wall": {
        "ahead": lambda body: stand_wall(body, 1.0),
        "behind": lambda body: stand_wall(body, -1.0),
    },
    "timer": {
        "left-hand": lambda body: _timer(body, "left"),
        "right-hand": lambda body: _timer(body, "right"),
    },
    "bag": {
        "left-hand": lambda body: _bag(body, "left"),
        "right-hand": lambda body: _bag(body, "right"),
    },
}
"""How each prop may lie; the first is meant where a figure says nothing."""
STAYING = frozenset({"mat", "chair", "towel", "wall"})
"""Props that stay where they are while a body moves; the others go with it."""
