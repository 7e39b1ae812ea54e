"""Versions: a lesson as one person does it today, and what that is worth."""

from builder.course.dose import Dose, TimedDose
from builder.course.lesson import Lesson
from builder.course.trait import is_loaded
from builder.planning.class_plan import worth
from builder.planning.class_plan.guests import Guest
from builder.planning.class_plan.problem import Version
from builder.planning.own_drill import find_own_drill
from builder.planning.permission import AdaptationKind
from builder.planning.readings import HOLD_MEASURE
from builder.planning.standing import OBSERVE
from builder.planning.weaker_side import plan_sides
from builder.records.plan import OWN_PACE
from builder.records.result import Side
from builder.sums.schedule import make_plan

_SECOND_MS = 1000
_HOLD = "breath-hold"


def make_version(guest: Guest, lesson: Lesson, *, is_asked: bool) -> Version:
    """Return a lesson as somebody would do it, were it allowed.

    Lessons of strands that the class doesn't ask for only warm up, and count as known ones. The
    family stays the lesson's own: somebody who sits instead does so beside the others who lie,
    hears the same words at the same count, and nobody waits for them to change.
    """
    tempo, standing = lesson.drill.tempo, guest.standing
    changes = guest.adaptations.get(lesson.id, ())
    return Version(
        lesson_id=lesson.id,
        strand_id=lesson.strand.id,
        count=OWN_PACE if tempo is None else str(tempo),
        family=lesson.drill.position.family,
        is_loaded=is_loaded(lesson.drill),
        seconds=time_sets(lesson, lesson.drill.dose, guest.weaker_sides.get(lesson.id)),
        points=_weigh(guest, lesson, is_asked=is_asked),
        is_new=not standing.tries.get(lesson.id) and lesson.id not in standing.known,
        is_adapted=any(each.kind is AdaptationKind.ADAPT for each in changes),
        props=tuple((use.prop.id, use.count) for use in find_own_drill(lesson, changes).props),
        most_times=worth.MOST_TIMED_HOLDS if _times_holds(lesson) else worth.MOST_TIMES,
    )


def _times_holds(lesson: Lesson) -> bool:
    return any(measure.id == HOLD_MEASURE for measure in lesson.measures)


def _weigh(guest: Guest, lesson: Lesson, *, is_asked: bool) -> int:
    standing = guest.standing
    if _gives_no_reading(guest, lesson):
        return worth.NOT_DUE
    if is_asked and lesson.id in standing.set_back:
        return worth.PRACTICE
    if not is_asked or lesson.id in standing.known:
        return _weigh_known(guest, lesson, is_asked=is_asked)
    return worth.PRACTICE if standing.tries.get(lesson.id) else worth.STEP


def _weigh_known(guest: Guest, lesson: Lesson, *, is_asked: bool) -> int:
    if lesson.strand.aim != OBSERVE:
        return worth.KNOWN
    return worth.RETEST if is_asked and lesson.id in guest.due else worth.NOT_DUE


def _gives_no_reading(guest: Guest, lesson: Lesson) -> bool:
    """Tell whether a check says nothing of somebody: a hold that is let go by is no hold."""
    return lesson.strand.aim == OBSERVE and any(
        each.kind is AdaptationKind.ADAPT and each.notice and _HOLD in each.notice.traits
        for each in guest.adaptations.get(lesson.id, ())
    )


def time_sets(lesson: Lesson, dose: Dose | TimedDose, weaker: Side | None) -> int:
    """Return the seconds of all sets and rests of a dose, with the weaker side's own."""
    plan = make_plan(lesson.drill.tempo, dose)
    whole = plan.end_ms
    sides = plan_sides(lesson, weaker)
    if sides is not None:
        extra = sides.weaker_sets - sides.stronger_sets
        whole += extra * (plan.round_ms + plan.rest_ms)
    return -(-whole // _SECOND_MS)
