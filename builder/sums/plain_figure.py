"""Plain figures: a position as it is by itself, with the breath and nothing else moving."""

from collections.abc import Iterable
from dataclasses import replace

from builder.course.base_poses import BASE_POSES, BasePose
from builder.course.figure import BreathPlace, Figure, Stance, View
from builder.course.pose import Shape
from builder.sums.solids import PLACINGS


def make_plain_figure(
    pose_name: str, prop_ids: Iterable[str], breath: tuple[BreathPlace, ...]
) -> Figure:
    """Return the figure of a base pose with some props; KeyError for a pose that there isn't."""
    base = BASE_POSES[pose_name]
    stance = Stance(pose_name, base.pose, base.contacts)
    drawn = sorted(set(prop_ids) & PLACINGS.keys())
    props = {prop: choose_placing(base, prop) for prop in drawn}
    return Figure(View.SIDE, breathe_in(stance, breath), stance, breath, props)


def breathe_in(stance: Stance, breath: Iterable[BreathPlace]) -> Stance:
    """Return a stance with the body as wide as an in-breath makes it."""
    full = Shape(**{place.value: 1.0 for place in breath})
    return replace(stance, pose=replace(stance.pose, shape=full))


def choose_placing(base: BasePose, prop_id: str) -> str:
    """Return how a prop mostly lies in a position; KeyError for one that isn't drawn."""
    return base.props.get(prop_id, next(iter(PLACINGS[prop_id])))
