"""A header's figure to a Figure: its base pose, then what both breaths and what each changes."""

from collections.abc import Iterable, Mapping
from dataclasses import replace

from builder.course.base_poses import BASE_POSES, BasePose
from builder.course.figure import BreathPlace, Contacts, Figure, Stance, View
from builder.course.pose import Pose
from builder.course.vocabulary import Position, PropUse
from builder.reading.figure_schema import FigurePart, HandsPart, JointsPart, MomentPart
from builder.reading.known import HeaderCheck
from builder.reading.part import Part
from builder.reading.yaml_tree import Way
from builder.sums.plain_figure import breathe_in, choose_placing, turn_to
from builder.sums.solids import PLACINGS
from builder.sums.spots import HAND_PLACES

_BOTH = {"arms": ("left_arm", "right_arm"), "legs": ("left_leg", "right_leg")}
_NOTHING = MomentPart()


def make_figure(
    check: HeaderCheck, part: FigurePart | None, position: Position, props: Iterable[PropUse]
) -> Figure | None:
    """Return a lesson's figure; None where neither it nor its position names a base pose."""
    written = part or FigurePart()
    name = written.pose or position.pose
    if not name or not check.known(("figure", "pose"), name, BASE_POSES):
        return None
    view = View(written.view)
    breath = tuple(BreathPlace(place) for place in written.breath)
    inhale, exhale = (_make_stance(check, written, name, moment) for moment in ("inhale", "exhale"))
    places = _lay_props(check, written.props, props, BASE_POSES[name])
    if inhale is None or exhale is None:
        return None
    return Figure(
        view,
        turn_to(view, breathe_in(inhale, breath)),
        turn_to(view, exhale),
        breath,
        places,
        written.move_arrows,
    )


def _make_stance(check: HeaderCheck, written: FigurePart, name: str, moment: str) -> Stance | None:
    part: MomentPart = getattr(written, moment) or _NOTHING
    base_name = part.pose or name
    if not check.known(("figure", moment, "pose"), base_name, BASE_POSES):
        return None
    base = BASE_POSES[base_name]
    pose = _adjust(_adjust(base.pose, written.start), part)
    contacts = _touch(check, base, (written.hands, ("figure", "hands")))
    later = (part.hands, ("figure", moment, "hands"))
    contacts = _touch(check, replace(base, pose=pose, contacts=contacts), later)
    return Stance(base_name, pose, contacts.without(frozenset(part.free)), tuple(part.press))


def _adjust(pose: Pose, part: JointsPart | None) -> Pose:
    """Put a header's angles over those of a pose; one side's own go before those of both."""
    if part is None:
        return pose
    for key in ("lie", "spine", "arms", "legs", "left_arm", "right_arm", "left_leg", "right_leg"):
        angles = _given(getattr(part, key))
        for name in _BOTH.get(key, (key,)):
            pose = replace(pose, **{name: replace(getattr(pose, name), **angles)})
    return pose


def _given(part: Part | None) -> dict[str, float]:
    """Return the angles that a header gives."""
    return {} if part is None else part.model_dump(exclude_none=True)


def _touch(check: HeaderCheck, base: BasePose, hands: tuple[HandsPart | None, Way]) -> Contacts:
    part, way = hands
    places: Mapping[str, str] = {} if part is None else part.model_dump(exclude_none=True)
    known = {
        side: place
        for side, place in places.items()
        if check.known((*way, side), place, HAND_PLACES)
    }
    return replace(base.contacts, hands={**base.contacts.hands, **known})


def _lay_props(
    check: HeaderCheck, written: Mapping[str, str], props: Iterable[PropUse], base: BasePose
) -> dict[str, str]:
    """Return how each prop that can be drawn lies: as written, else as it mostly does."""
    places = {}
    drawn = sorted({use.prop.id for use in props if use.prop.id in PLACINGS})
    for prop, how in written.items():
        if check.known(("figure", "props", prop), prop, drawn):
            check.known(("figure", "props", prop), how, (*PLACINGS[prop], "unseen"))
    for prop in drawn:
        how = written.get(prop, choose_placing(base, prop))
        if how in PLACINGS[prop]:
            places[prop] = how
    return places
