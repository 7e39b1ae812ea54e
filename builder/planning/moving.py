"""Moving: where somebody does a lesson that their notices move to another position.

What a person's notices say is taken together. A position that one of them names may be one that
another of them moves, asks about or stops, and then it isn't where the person goes.
"""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from datetime import date

from builder.course.course import Course
from builder.course.lesson import Drill, Lesson
from builder.course.notice import Action, Instead, Notice
from builder.course.trait import find_place_traits
from builder.records.person import Person


@dataclass(frozen=True, slots=True)
class Move:
    """That a lesson is moved for a person, by which notices, and where to."""

    notices: tuple[Notice, ...]
    """Those that move the lesson, then those that move it on."""
    instead: Instead | None
    """What suits all of the person's notices; None where nothing that they name does."""

    @property
    def traits(self) -> frozenset[str]:
        """Return what the new place brings along."""
        return (
            find_place_traits(self.instead.position, self.instead.props)
            if self.instead
            else frozenset()
        )


def find_move(course: Course, person: Person, lesson: Lesson, day: date) -> Move | None:
    """Return where a person's notices move a lesson on a day; None where they leave it.

    The first position that suits is taken, in the order of the lesson's notices. One that another
    notice moves on is followed to where that notice leads.
    """
    acting = tuple(_list_acting(course, person, day))
    moving = [each for each in course.notices_for(lesson) if each.instead and each in acting]
    for notice in moving:  # it grows by those that move the lesson on
        if notice.instead is None:
            continue
        against = [each for each in acting if _rules_out(each, notice.instead)]
        if not against:
            return Move(tuple(moving), notice.instead)
        moving += [each for each in against if each.instead and each not in moving]
    return Move(tuple(moving), None) if moving else None


def move_drill(drill: Drill, instead: Instead) -> Drill:
    """Return a drill as it is done in another place.

    Props of the lesson stay, because hands and knees may use them there as well. What is there to
    lie on goes: laid out beside a chair, it would call somebody down to the floor.
    """
    kept = [use for use in drill.props if instead.position.on_floor or not use.prop.on_floor]
    most = {use.prop.id: use for use in kept}
    for use in instead.props:
        own = most.get(use.prop.id)
        most[use.prop.id] = use if own is None or own.count < use.count else own
    return replace(drill, position=instead.position, props=tuple(most.values()))


def list_shared(person: Person, notice: Notice) -> tuple[str, ...]:
    """Return the person's conditions that a notice names."""
    return tuple(name for name in person.conditions if name in notice.conditions)


def is_cleared(person: Person, condition: str, day: date) -> bool:
    """Tell whether a clinician had said yes about a condition up to a day."""
    return condition in person.cleared and person.cleared[condition] <= day


def _list_acting(course: Course, person: Person, day: date) -> Iterator[Notice]:
    """Yield the notices for which a position matters to a person.

    One that only changes how a lesson is done goes along to any position, and what stands
    everywhere speaks of none.
    """
    for notice in course.notices:
        shared = list_shared(person, notice)
        is_open = any(not is_cleared(person, name, day) for name in shared)
        acts = {
            Action.STOP: bool(shared),
            Action.ASK_FIRST: is_open,
            Action.ADAPT: bool(shared) and notice.instead is not None,
        }
        if acts.get(notice.action) and not notice.everywhere:
            yield notice


def _rules_out(notice: Notice, instead: Instead) -> bool:
    return notice.concerns(find_place_traits(instead.position, instead.props))
