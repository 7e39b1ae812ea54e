"""Figures: no joint bent beyond its range, nobody afloat or sunk, and what moves is drawn."""

from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass, replace

from builder import rules
from builder.course.course import Course
from builder.course.figure import Figure, Stance
from builder.course.lesson import Lesson, Limb
from builder.findings import Finding, Place, Rule
from builder.sums.joint_limits import SOLVED, Excess, find_excesses
from builder.sums.rest import bottom, find_gaps, settle
from builder.sums.skeleton import Skeleton
from builder.sums.travel import measure_travel

TOLERANCE = 0.0125
"""Half a millimetre where a body's height is 40 mm on paper, as a part of the height."""
_LEAST_MOVE = 0.04
"""A limb whose end moves less stays where it is; ours."""
_ENDS = {
    Limb.LEFT_ARM: "left-palm",
    Limb.RIGHT_ARM: "right-palm",
    Limb.LEFT_LEG: "left-ankle",
    Limb.RIGHT_LEG: "right-ankle",
}
_PARTS = (
    "trunk",
    "head",
    *(f"{side}-{part}" for side in ("left", "right") for part in ("hand", "elbow", "knee", "foot")),
)
_BREATHS = {"inhale": "on the in-breath", "exhale": "on the out-breath"}


@dataclass(frozen=True, slots=True)
class _Moment:
    """One of a figure's two pictures, and the key under which a header changes it."""

    key: str
    stance: Stance


@dataclass(frozen=True, slots=True)
class _Fault:
    """What is wrong with one picture."""

    fact: str
    cure: str
    keys: tuple[str, ...] = ()
    """Under ``figure``, where it may be written; the first that a header has."""


def find_joints_beyond_limits(course: Course) -> Iterator[Finding]:
    """Report joints that are drawn further than joints go."""
    return _find_by_breath(course, rules.JOINT_BEYOND_LIMIT, _list_bent_too_far)


def find_sunk_bodies(course: Course) -> Iterator[Finding]:
    """Report figures of which a part is under the floor."""
    return _find_by_breath(course, rules.BODY_THROUGH_FLOOR, _list_sunk)


def find_missed_contacts(course: Course) -> Iterator[Finding]:
    """Report feet and hands that don't reach what they are said to lie on."""
    return _find_by_breath(course, rules.CONTACT_MISSED, _list_missed)


def find_breaths_alike(course: Course) -> Iterator[Finding]:
    """Report drills that move, drawn without a move."""
    for lesson, figure in _figures(course):
        moving = lesson.drill.moving
        if "figure" in lesson.positions and moving and _is_still(figure):
            yield rules.BREATHS_ALIKE.at(
                lesson.at("figure"),
                f"the {_move(moving)} in the drill, but both breaths are drawn alike",
                'give the angles that change under "inhale" or "exhale"',
            )


def find_limbs_unlike_moving(course: Course) -> Iterator[Finding]:
    """Report limbs that move in the figure and not in the drill."""
    for lesson, figure in _figures(course):
        moving = lesson.drill.moving
        if figure.inhale.base != figure.exhale.base or Limb.TRUNK in moving:
            continue
        before, after = (
            settle(stance.pose, stance.contacts)[1] for stance in (figure.inhale, figure.exhale)
        )
        still = {*moving, *_list_carried(figure)}
        extra = [limb for limb in _ENDS if limb not in still and _moves(limb, before, after)]
        if extra:
            yield rules.FIGURE_UNLIKE_MOVING.at(
                lesson.at("figure"),
                f"the {_move(extra)} in the figure, but not in the drill",
                f'keep still there what the drill keeps still, or add {_quote(extra)} to "moving"',
            )


def _list_carried(figure: Figure) -> Iterator[Limb]:
    """Yield arms whose hands lie on the body or on a ball, and so only ride on the breath."""
    before, after = figure.inhale.contacts.hands, figure.exhale.contacts.hands
    for side, arm in (("left", Limb.LEFT_ARM), ("right", Limb.RIGHT_ARM)):
        if side in before and before.get(side) == after.get(side):
            yield arm


def _find_by_breath(
    course: Course, rule: Rule, list_faults: Callable[[_Moment], Iterable[_Fault]]
) -> Iterator[Finding]:
    """Yield the faults of both pictures, each once where both have it."""
    for lesson, figure in _figures(course):
        seen: dict[tuple[str, str], dict[str, _Fault]] = {}
        for moment, stance in (("inhale", figure.inhale), ("exhale", figure.exhale)):
            for fault in list_faults(_Moment(moment, stance)):
                seen.setdefault((fault.fact, fault.cure), {})[moment] = fault
        for (fact, cure), faults in seen.items():
            when = _BREATHS[next(iter(faults))] if len(faults) == 1 else "on both breaths"
            yield rule.at(_place(lesson, faults), f"{when}, {fact}", cure)


def _place(lesson: Lesson, faults: Mapping[str, _Fault]) -> Place:
    """Return where a fault is written, or the nearest place around it."""
    keys = [key for fault in faults.values() for key in fault.keys]
    around = list(faults) if len(faults) == 1 else []
    for key in (*keys, *around):
        if f"figure.{key}" in lesson.positions:
            return lesson.at(f"figure.{key}")
    return lesson.at("figure" if "figure" in lesson.positions else "position")


def _list_bent_too_far(moment: _Moment) -> Iterator[_Fault]:
    settled, _ = settle(moment.stance.pose, moment.stance.contacts)
    written = list(find_excesses(moment.stance.pose))
    for excess in written:
        if excess.joint not in SOLVED:
            yield _tell_excess(moment, excess, is_written=True)
    for excess in find_excesses(settled):
        if excess.joint in SOLVED:
            yield _tell_excess(moment, excess, is_written=excess in written)


def _tell_excess(moment: _Moment, excess: Excess, *, is_written: bool) -> _Fault:
    part = excess.part
    side, _, limb = part.partition("_")
    ways = [part, f"{limb}s"] if limb else [part]
    keys = tuple(f"{key}.{way}.{excess.joint}" for key in (moment.key, "start") for way in ways)
    degrees = f"{round(excess.angle, 1):g} degrees"
    beyond = f"outside its range of {excess.range.least:g} to {excess.range.most:g}"
    name = f'"{excess.joint}" of the {part.replace("_", " ")}'
    if is_written:
        fact, cure = f"{name} is at {degrees}, {beyond}", "give an angle within it"
    else:
        end = "hand" if limb == "arm" else "foot"
        fact = f"reaching its place bends {name} to {degrees}, {beyond}"
        first = "give the hand another place" if limb == "arm" else "change the joints above it"
        cure = f'{first}, or name "{side}-{end}" in "free"'
    return _Fault(fact, cure, keys)


def _list_sunk(moment: _Moment) -> Iterator[_Fault]:
    _, skeleton = settle(moment.stance.pose, moment.stance.contacts)
    sunk = [part for part in _PARTS if bottom(skeleton, (part,)) < -TOLERANCE]
    if sunk:
        verb = "is" if len(sunk) == 1 else "are"
        fact = f"the {_join(sunk)} {verb} under the floor"
        cure = 'bend a joint of that limb, or start from another base pose under "pose"'
        yield _Fault(fact, cure)


def _list_missed(moment: _Moment) -> Iterator[_Fault]:
    contacts = moment.stance.contacts
    gaps = dict(find_gaps(moment.stance.pose, contacts))
    for part in (part for part, gap in gaps.items() if gap > TOLERANCE):
        side, _, end = part.partition("-")
        name, free = part.replace("-", " "), f'name "{part}" in "free"'
        if end == "hand" and side in contacts.hands:
            keys = f"{moment.key}.hands.{side}", f"hands.{side}"
            fact = f'the {name} doesn\'t reach "{contacts.hands[side]}"'
            yield _Fault(fact, f"give it another place, or {free}", keys)
        else:
            fact = f"the {name} doesn't reach the floor"
            yield _Fault(fact, f"bend the joints above it less or more, or {free}")


def _figures(course: Course) -> Iterator[tuple[Lesson, Figure]]:
    for lesson in course.lessons:
        if lesson.figure:
            yield lesson, lesson.figure


def _is_still(figure: Figure) -> bool:
    """Tell whether nothing but the breath itself changes from one picture to the other."""
    shape = figure.inhale.pose.shape
    exhale = replace(figure.exhale, pose=replace(figure.exhale.pose, shape=shape))
    return figure.inhale == exhale


def _moves(limb: Limb, before: Skeleton, after: Skeleton) -> bool:
    """Tell whether a limb's end moves by itself."""
    side, _, end = _ENDS[limb].partition("-")
    return measure_travel(before, after, side, end) > _LEAST_MOVE


def _move(limbs: Iterable[Limb]) -> str:
    names = [limb.value for limb in limbs]
    return f"{_join(names)} {'moves' if len(names) == 1 else 'move'}"


def _quote(limbs: Iterable[Limb]) -> str:
    return _join([f'"{limb.value}"' for limb in limbs], spaced=False)


def _join(names: list[str], *, spaced: bool = True) -> str:
    shown = [name.replace("-", " ") if spaced else name for name in names]
    return shown[0] if len(shown) == 1 else f"{', '.join(shown[:-1])} and {shown[-1]}"
