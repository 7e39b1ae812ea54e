"""Figures: no joint bent beyond its range, nobody afloat or sunk, and what moves is drawn."""

from collections.abc import Iterator, Sequence
from dataclasses import replace

from builder import rules
from builder.course.course import Course
from builder.course.figure import Figure, Stance
from builder.course.lesson import Lesson, Limb
from builder.course.pose import Pose
from builder.findings import Finding
from builder.sums.joint_limits import SOLVED, Excess, find_excesses
from builder.sums.rest import bottom, find_gaps, settle
from builder.sums.skeleton import Skeleton
from builder.sums.space import distance

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
_UNSOLVED = frozenset({"lift", "out", "turn", "roll", "hip", "tuck", "curl", "nod", "look"})
"""Joints as they were written, before hands find their places."""
_PARTS = (
    "trunk",
    "head",
    *(f"{side}-{part}" for side in ("left", "right") for part in ("hand", "elbow", "knee", "foot")),
)


def find_joints_beyond_limits(course: Course) -> Iterator[Finding]:
    """Report joints that are drawn further than joints go."""
    for lesson, moment, stance in _stances(course):
        pose, _ = settle(stance.pose, stance.contacts)
        written = list(find_excesses(stance.pose, _UNSOLVED))
        for excess in (*written, *find_excesses(pose, SOLVED)):
            limit = excess.range
            yield rules.JOINT_BEYOND_LIMIT.at(
                lesson.at(f"figure.{moment}.{excess.part}.{excess.joint}"),
                f"on the {moment} the {_name(excess)} is at {excess.angle:.0f} degrees, "
                f"beyond the {limit.least:g} to {limit.most:g} that it has",
                "bend it less, or turn the body instead",
            )


def find_sunk_bodies(course: Course) -> Iterator[Finding]:
    """Report figures of which a part is under the floor."""
    for lesson, moment, stance in _stances(course):
        _, skeleton = settle(stance.pose, stance.contacts)
        sunk = [part for part in _PARTS if bottom(skeleton, (part,)) < -TOLERANCE]
        if sunk:
            yield rules.BODY_THROUGH_FLOOR.at(
                lesson.at(f"figure.{moment}"),
                f"on the {moment} the {_list(sunk)} is under the floor",
                "bend a joint of that limb, or change what the body rests on",
            )


def find_missed_contacts(course: Course) -> Iterator[Finding]:
    """Report feet and hands that don't reach what they are said to lie on."""
    for lesson, moment, stance in _stances(course):
        missed = [name for name, gap in find_gaps(stance.pose, stance.contacts) if gap > TOLERANCE]
        if missed:
            yield rules.CONTACT_MISSED.at(
                lesson.at(f"figure.{moment}.hands"),
                f"on the {moment} the {_list(missed)} doesn't reach its place",
                "bring the limb nearer, give it another place, or name it in free",
            )


def find_breaths_alike(course: Course) -> Iterator[Finding]:
    """Report drills that move, drawn without a move."""
    for lesson, figure in _figures(course):
        if lesson.drill.moving and figure.inhale.pose == _with_shape(figure, figure.exhale):
            yield rules.BREATHS_ALIKE.at(
                lesson.at("figure"),
                "the drill moves, but both breaths are drawn in one pose",
                "give the angles that change under inhale or exhale",
            )


def find_limbs_unlike_moving(course: Course) -> Iterator[Finding]:
    """Report limbs that move in the figure and not in the drill."""
    for lesson, figure in _figures(course):
        before, after = (
            settle(stance.pose, stance.contacts)[1] for stance in (figure.inhale, figure.exhale)
        )
        if figure.inhale.base != figure.exhale.base or Limb.TRUNK in lesson.drill.moving:
            continue
        extra = [limb for limb in _ENDS if _moves(limb, before, after)]
        extra = [limb for limb in extra if limb not in lesson.drill.moving]
        if extra:
            yield rules.FIGURE_UNLIKE_MOVING.at(
                lesson.at("figure"),
                f"the {_list(extra)} moves in the figure, but not in the drill",
                "change sides in the figure, or add the limb to moving",
            )


def _figures(course: Course) -> Iterator[tuple[Lesson, Figure]]:
    for lesson in course.lessons:
        if lesson.figure:
            yield lesson, lesson.figure


def _stances(course: Course) -> Iterator[tuple[Lesson, str, Stance]]:
    for lesson, figure in _figures(course):
        yield lesson, "inhale", figure.inhale
        yield lesson, "exhale", figure.exhale


def _with_shape(figure: Figure, stance: Stance) -> Pose:
    return replace(stance.pose, shape=figure.inhale.pose.shape)


def _moves(limb: Limb, before: Skeleton, after: Skeleton) -> bool:
    """Tell whether a limb's end moves."""
    name = _ENDS[limb]
    return distance(before.at(name), after.at(name)) > _LEAST_MOVE


def _name(excess: Excess) -> str:
    return f"{excess.part.replace('_', ' ')}'s {excess.joint}"


def _list(parts: Sequence[str]) -> str:
    return " and ".join(part.replace("-", " ") for part in parts)
