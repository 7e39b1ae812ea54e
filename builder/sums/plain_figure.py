"""Plain figures: a position as it is by itself, with the breath and nothing else moving."""

from collections.abc import Iterable
from dataclasses import replace

from builder.course.base_poses import BASE_POSES, BasePose
from builder.course.figure import BreathPlace, Figure, Stance, View
from builder.course.pose import Shape
from builder.sums.solids import PLACINGS

_FACING = {View.FRONT: -90.0, View.BACK: 90.0, View.CORNER: -35.0}
_SIDEWAYS = frozenset({BreathPlace.SIDES, BreathPlace.LEFT, BreathPlace.RIGHT})
"""Where a breath can't be seen from the side."""
_ON_THIGHS = {"left": "thigh", "right": "thigh"}
"""Where hands lie that have nothing to do, when somebody sits."""


def make_plain_figure(
    pose_name: str, prop_ids: Iterable[str], breath: tuple[BreathPlace, ...]
) -> Figure:
    """Return the figure of a base pose with some props; KeyError for a pose that there isn't."""
    base = BASE_POSES[pose_name]
    contacts = base.contacts
    if contacts.on_seat and not contacts.hands:
        contacts = replace(contacts, hands=_ON_THIGHS)
    # From the front, small, somebody who sits looks as if standing.
    view = View.CORNER if breath and _SIDEWAYS.issuperset(breath) else View.SIDE
    stance = turn_to(view, Stance(pose_name, base.pose, contacts))
    drawn = sorted(set(prop_ids) & PLACINGS.keys())
    props = {prop: choose_placing(base, prop) for prop in drawn}
    return Figure(view, breathe_in(stance, breath), stance, breath, props)


def breathe_in(stance: Stance, breath: Iterable[BreathPlace]) -> Stance:
    """Return a stance with the body as wide as an in-breath makes it."""
    full = Shape(**{place.value: 1.0 for place in breath})
    return replace(stance, pose=replace(stance.pose, shape=full))


def turn_to(view: View, stance: Stance) -> Stance:
    """Turn a body towards or away from the viewer; its own turn comes on top."""
    lie = stance.pose.lie
    turned = replace(lie, facing=lie.facing + _FACING.get(view, 0.0))
    return replace(stance, pose=replace(stance.pose, lie=turned))


def choose_placing(base: BasePose, prop_id: str) -> str:
    """Return how a prop mostly lies in a position; KeyError for one that isn't drawn."""
    return base.props.get(prop_id, next(iter(PLACINGS[prop_id])))
