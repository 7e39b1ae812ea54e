"""Options: what each person of a class may do today, and what they may not do, and why."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace

from builder.course.course import Course
from builder.course.graph import find_before
from builder.course.lesson import Lesson
from builder.course.trait import is_loaded
from builder.planning.class_plan import worth
from builder.planning.class_plan.guests import Guest
from builder.planning.class_plan.problem import ClassProblem, Version
from builder.planning.class_plan.refusal import Ground, Refusal
from builder.planning.class_plan.versions import make_version
from builder.planning.standing import Standing
from builder.records.class_order import ClassOrder

_MINUTE = 60


class Options:
    """What the people of a class may do, and what would be if a refusal's ground were gone."""

    def __init__(self, course: Course, order: ClassOrder, guests: Sequence[Guest]) -> None:
        """Take the guests in any order; their ids come sorted out of it."""
        self.course = course
        self.order = order
        self.guests = {guest.person_id: guest for guest in guests}
        self.people = tuple(sorted(self.guests))
        self.strands = frozenset(order.strands or course.vocabulary.strands)
        self.groundwork = {who: self._find_groundwork(each) for who, each in self.guests.items()}

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
        found = (
            self.find_refusal(person, lesson.id)
            for person in self.people
            for lesson in self.course.lessons
            if lesson.strand.id in self.strands
        )
        return tuple(refusal for refusal in found if refusal and self._is_near(refusal))

    def find_refusal(self, person_id: str, lesson_id: str) -> Refusal | None:
        """Return why somebody may not do a lesson today; None where they may."""
        guest, lesson = self.guests[person_id], self.course.by_id[lesson_id]
        version = make_version(guest, lesson, is_asked=self._is_asked(guest, lesson))
        missing = _find_missing(guest.standing, lesson)
        if lesson_id in guest.barriers:
            barriers = guest.barriers[lesson_id]
            return Refusal(person_id, version, Ground.BARRED, missing, barriers)
        if not _is_ready(guest.standing, lesson):
            ground = Ground.NOT_READY if missing else Ground.TOO_MUCH
            return Refusal(person_id, version, ground, missing)
        if version.is_loaded and guest.worked_yesterday:
            return Refusal(person_id, version, Ground.REST_DAY)
        if lesson in self._list_lessons(guest):
            return None
        return Refusal(person_id, version, Ground.NOT_ASKED)

    def _is_near(self, refusal: Refusal) -> bool:
        standing = self.guests[refusal.person_id].standing
        name = refusal.version.lesson_id
        if refusal.ground is Ground.BARRED:
            return name in standing.known or name in standing.open
        if refusal.ground is Ground.NOT_READY:
            return bool(refusal.missing) and all(each in standing.open for each in refusal.missing)
        return True

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
            case Ground.TOO_MUCH:
                changed = replace(guest, standing=self._forgive(guest.standing, lesson_id))
            case Ground.REST_DAY:
                changed = replace(guest, worked_yesterday=False)
            case Ground.NOT_ASKED:
                strands = (*sorted(self.strands), refusal.version.strand_id)
                order = replace(self.order, strands=strands)
                return Options(self.course, order, [*self.guests.values()]).pose()
        others = [each for each in self.guests.values() if each.person_id != guest.person_id]
        return Options(self.course, self.order, [*others, changed]).pose()

    def _learn(self, standing: Standing, lessons: Iterable[str]) -> Standing:
        """Return a standing in which some lessons are known."""
        known, met = standing.known.union(lessons), standing.met.union(lessons)
        behind = standing.behind.union(lessons)
        open_now = tuple(
            name
            for name in self.course.teaching_order
            if name not in known
            and name not in standing.too_much
            and met.issuperset(self.course.by_id[name].builds_on)
        )
        return replace(standing, known=known, met=met, behind=behind, open=open_now)

    def _forgive(self, standing: Standing, lesson_id: str) -> Standing:
        """Return a standing in which a lesson wasn't too much."""
        too_much = tuple(name for name in standing.too_much if name != lesson_id)
        return self._learn(replace(standing, too_much=too_much), ())

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
            yield make_version(guest, lesson, is_asked=self._is_asked(guest, lesson))

    def _list_lessons(self, guest: Guest) -> Iterator[Lesson]:
        """Go through what somebody knows or works on: other strands only to warm up."""
        for name in self.course.teaching_order:
            lesson = self.course.by_id[name]
            is_asked = self._is_asked(guest, lesson)
            is_warm_up = name in guest.standing.known and not is_loaded(lesson.drill)
            if _is_ready(guest.standing, lesson) and (is_asked or is_warm_up):
                yield lesson

    def _is_asked(self, guest: Guest, lesson: Lesson) -> bool:
        return lesson.strand.id in self.strands or lesson.id in self.groundwork[guest.person_id]

    def _find_groundwork(self, guest: Guest) -> frozenset[str]:
        """Return what leads somebody to the class's strands who can do nothing of them yet."""
        asked = [lesson for lesson in self.course.lessons if lesson.strand.id in self.strands]
        if any(_is_ready(guest.standing, lesson) for lesson in asked):
            return frozenset()
        before = {name for each in asked for name in find_before(self.course.graph, each.id)}
        return frozenset(
            name
            for name in before.intersection(guest.standing.open)
            if not is_loaded(self.course.by_id[name].drill)
        )


def _is_ready(standing: Standing, lesson: Lesson) -> bool:
    """Tell whether somebody knows a lesson or works on it, and has all that it builds on."""
    is_near = lesson.id in standing.known or lesson.id in standing.open
    return is_near and not _find_missing(standing, lesson)


def _find_missing(standing: Standing, lesson: Lesson) -> tuple[str, ...]:
    """Return what a lesson builds on and somebody doesn't have.

    What they know they don't repeat either while something under it is lost or was left out.
    """
    has = standing.behind if lesson.id in standing.known else standing.met
    return tuple(name for name in lesson.builds_on if name not in has)
