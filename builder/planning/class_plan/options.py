"""Options: what each person of a class may do today, what it is worth, and what they may not do."""

from collections.abc import Collection, Iterable, Iterator, Sequence
from dataclasses import dataclass, replace

from builder.course.course import Course
from builder.course.dose import Dose
from builder.course.lesson import Lesson
from builder.course.trait import is_loaded
from builder.planning.class_plan import worth
from builder.planning.class_plan.problem import ClassProblem, Version
from builder.planning.class_plan.refusal import Ground, Refusal
from builder.planning.permission import Barrier
from builder.planning.standing import Standing
from builder.planning.weaker_side import plan_sides
from builder.records.class_order import ClassOrder
from builder.records.plan import OWN_PACE
from builder.records.result import Side
from builder.sums.schedule import make_plan

_MINUTE = 60
_SECOND_MS = 1000


@dataclass(frozen=True)
class Guest:
    """One person who comes to a class, as far as a plan has to know them."""

    person_id: str
    standing: Standing
    barriers: dict[str, tuple[Barrier, ...]]
    """What bars a lesson, by lesson; lessons that nothing bars are left out."""
    weaker_sides: dict[str, Side]
    """The side that gets one set more, by lesson."""
    due: frozenset[str] = frozenset()
    """Checks whose measure is to be read again."""
    worked_yesterday: bool = False
    """Whether the day before held work, so that a day of rest is due."""


class Options:
    """What the people of a class may do, and what would be if a refusal's ground were gone."""

    def __init__(self, course: Course, order: ClassOrder, guests: Sequence[Guest]) -> None:
        """Take the guests in any order; their ids come sorted out of it."""
        self.course = course
        self.order = order
        self.guests = {guest.person_id: guest for guest in guests}
        self.people = tuple(sorted(self.guests))
        self.strands = frozenset(order.strands or course.vocabulary.strands)

    def pose(self) -> ClassProblem:
        """Return the problem of the class."""
        versions = {
            person: tuple(self._list_versions(self.guests[person])) for person in self.people
        }
        used = sorted(
            {prop for own in versions.values() for version in own for prop, _ in version.props}
        )
        return ClassProblem(
            people=self.people,
            versions=versions,
            families=tuple(self.course.vocabulary.families),
            seconds=self.order.minutes * _MINUTE,
            most_blocks=self.order.most_blocks,
            close_looks=len(self.order.coaches),
            most_new=self.order.most_new,
            props={prop: self._count(prop) for prop in used},
            set_up_seconds=self.course.settings.limits.set_up_seconds,
            rest_seconds=self.order.rest_seconds,
            title=self.order.title,
        )

    def list_refusals(self) -> tuple[Refusal, ...]:
        """Return the lessons of the class's strands that somebody may not do, as far as one step.

        Named are lessons that are barred, that a day of rest keeps back, and those for which only
        lessons are missing that the person works on now.
        """
        return tuple(
            refusal for person in self.people for refusal in self._refuse(self.guests[person])
        )

    def suppose(self, refusal: Refusal) -> ClassProblem:
        """Return the problem as it would be, were the ground of a refusal gone."""
        guest = self.guests[refusal.person_id]
        lesson_id = refusal.version.lesson_id
        match refusal.ground:
            case Ground.NOT_READY:
                changed = replace(guest, standing=self._learn(guest.standing, refusal.missing))
            case Ground.BARRED:
                barriers = {name: own for name, own in guest.barriers.items() if name != lesson_id}
                changed = replace(guest, barriers=barriers)
            case Ground.REST_DAY:
                changed = replace(guest, worked_yesterday=False)
        others = [each for each in self.guests.values() if each.person_id != guest.person_id]
        return Options(self.course, self.order, [*others, changed]).pose()

    def _learn(self, standing: Standing, lessons: Iterable[str]) -> Standing:
        """Return a standing in which some lessons are known."""
        known = standing.known.union(lessons)
        open_now = tuple(
            name
            for name in self.course.teaching_order
            if name not in known
            and name not in standing.too_much
            and known.issuperset(self.course.by_id[name].builds_on)
        )
        return replace(standing, known=known, open=open_now)

    def _count(self, prop: str) -> int:
        """Return how many of a prop are at hand; where nobody counted, there are enough."""
        if prop in self.order.props:
            return self.order.props[prop]
        held = self.course.vocabulary.props[prop].class_set
        return worth.ENOUGH if held is None else held

    def _list_versions(self, guest: Guest) -> Iterator[Version]:
        for lesson in self._list_lessons(guest):
            loaded = is_loaded(lesson.drill)
            if lesson.id in guest.barriers or (loaded and guest.worked_yesterday):
                continue
            yield self._make_version(guest, lesson)

    def _list_lessons(self, guest: Guest) -> Iterator[Lesson]:
        """Go through what somebody knows or works on: other strands only to warm up."""
        ready = guest.standing.known.union(guest.standing.open)
        for name in self.course.teaching_order:
            lesson = self.course.by_id[name]
            is_asked = lesson.strand.id in self.strands
            is_warm_up = name in guest.standing.known and not is_loaded(lesson.drill)
            if name in ready and (is_asked or is_warm_up):
                yield lesson

    def _make_version(self, guest: Guest, lesson: Lesson) -> Version:
        tempo = lesson.drill.tempo
        is_asked = lesson.strand.id in self.strands
        is_tried = bool(guest.standing.tries.get(lesson.id))
        points = self._weigh(guest, lesson) if is_asked else worth.KNOWN
        return Version(
            lesson_id=lesson.id,
            strand_id=lesson.strand.id,
            count=OWN_PACE if tempo is None else str(tempo),
            family=lesson.drill.position.family,
            is_loaded=is_loaded(lesson.drill),
            seconds=_time(lesson, guest.weaker_sides.get(lesson.id)),
            points=points,
            is_new=not is_tried and lesson.id not in guest.standing.known,
            props=tuple((use.prop.id, use.count) for use in lesson.drill.props),
        )

    def _weigh(self, guest: Guest, lesson: Lesson) -> int:
        standing = guest.standing
        if lesson.id in standing.set_back or lesson.id in guest.due:
            return worth.PRACTICE
        if lesson.id in standing.known:
            return worth.KNOWN
        return worth.PRACTICE if standing.tries.get(lesson.id) else worth.STEP

    def _refuse(self, guest: Guest) -> Iterator[Refusal]:
        standing = guest.standing
        ready = standing.known.union(standing.open)
        for name in self.course.teaching_order:
            lesson = self.course.by_id[name]
            if lesson.strand.id not in self.strands:
                continue
            version = self._make_version(guest, lesson)
            if name in guest.barriers:
                if name in ready:
                    yield Refusal(
                        guest.person_id, version, Ground.BARRED, barriers=guest.barriers[name]
                    )
            elif name in ready:
                if version.is_loaded and guest.worked_yesterday:
                    yield Refusal(guest.person_id, version, Ground.REST_DAY)
            elif missing := self._find_missing(lesson, standing):
                yield Refusal(guest.person_id, version, Ground.NOT_READY, missing)

    def _find_missing(self, lesson: Lesson, standing: Standing) -> tuple[str, ...]:
        """Return what is missing for a lesson; nothing where it is further off than one step."""
        missing = tuple(name for name in lesson.builds_on if name not in standing.known)
        is_near: Collection[str] = standing.open
        return missing if missing and all(name in is_near for name in missing) else ()


def _time(lesson: Lesson, weaker: Side | None) -> int:
    """Return the seconds of all sets, with the weaker side's own."""
    plan = make_plan(lesson.drill.tempo, lesson.drill.dose)
    whole = plan.end_ms
    sides = plan_sides(lesson, weaker)
    if sides is not None and isinstance(lesson.drill.dose, Dose):
        extra = sides.weaker_sets - sides.stronger_sets
        whole += extra * (plan.round_ms + plan.rest_ms)
    return -(-whole // _SECOND_MS)
