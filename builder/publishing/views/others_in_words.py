"""Who else may come to a planned class, and what was checked for each of them, block by block.

Only what somebody did before is offered (ours): what is new to a person wants a coach's close look,
and that is planned. A class planned anew offers more. What the others do and this person may not is
named with its reason, because a coach at the door would else give them what everybody does.
"""

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from builder.course.course import Course
from builder.planning.class_plan.guests import Guest, find_guest
from builder.planning.class_plan.options import Options
from builder.planning.class_plan.planned import PlannedClass
from builder.planning.class_plan.problem import ClassProblem, Version
from builder.planning.class_plan.score import BlockTime, score_plan
from builder.planning.class_plan.spare import find_spare
from builder.planning.permission import BarrierKind
from builder.publishing.views.class_view import NotThisView, OtherView, TurnView
from builder.publishing.views.turn_in_words import TurnWriter
from builder.records.plan import PlannedBlock, Turn
from builder.records.program import Program
from builder.report.lack_words import say_refusal
from builder.report.placement_words import say_barrier, say_stops

_Place = tuple[PlannedBlock, BlockTime]


def view_others(course: Course, program: Program, planned: PlannedClass) -> tuple[OtherView, ...]:
    """Return who of a program isn't planned for, and what they may and may not do in this class.

    Nothing is offered that is barred for them, takes longer than its block, needs a prop that the
    others use, or is work without a rest after it. Coaches of the class are left out; whoever may
    do nothing of it is not, since they may stand at the door all the same.
    """
    places = _list_places(planned)
    absent = sorted(set(program.people) - {*planned.plan.people, *planned.order.coaches})
    return tuple(_open(course, program, planned, person).view(places) for person in absent)


def _open(course: Course, program: Program, planned: PlannedClass, person: str) -> "_Other":
    guest = find_guest(course, program, person, planned.order.day)
    options = Options(course, planned.order, (guest,))
    problem = options.pose()
    own = replace(planned, guests={**planned.guests, person: guest}, problem=problem)
    return _Other(guest, options, problem, planned.problem, TurnWriter(course, program, own))


def _list_places(planned: PlannedClass) -> Sequence[_Place]:
    """Return every block with its time, those to spare last."""
    spare = find_spare(planned.problem, planned.plan)
    every = replace(planned.plan, blocks=(*planned.plan.blocks, *spare))
    return tuple(zip(every.blocks, score_plan(planned.problem, every).times, strict=True))


@dataclass(frozen=True)
class _Other:
    """One person who may come as well, held against the blocks of a class."""

    guest: Guest
    options: Options
    problem: ClassProblem
    theirs: ClassProblem
    """The problem of those who are planned for."""
    writer: TurnWriter

    def view(self, places: Sequence[_Place]) -> OtherView:
        """Put the person into words."""
        turns = tuple(self._list_turns(place) for place in places)
        person = self.guest.person_id
        return OtherView(
            person_id=person,
            name=self.writer.program.people[person].name,
            turns=turns,
            not_these=tuple(self._list_not_these(place) for place in places),
            cautions=tuple(dict.fromkeys(self._list_cautions(turns))),
        )

    def _list_turns(self, place: _Place) -> tuple[TurnView, ...]:
        return tuple(
            self.writer.view(place[0], Turn(self.guest.person_id, version.lesson_id))
            for version in self.problem.versions[self.guest.person_id]
            if not self._say_misfit(version, place)
        )

    def _list_not_these(self, place: _Place) -> tuple[NotThisView, ...]:
        """Return what the others do in a block and this person may not; what is barred first."""
        lessons = dict.fromkeys(turn.lesson_id for turn in place[0].turns)
        why = {lesson: self._say_why(lesson, place) for lesson in lessons}
        barred = self.guest.barriers
        titles = self.writer.course.by_id
        return tuple(
            NotThisView(lesson, titles[lesson].title, why[lesson], is_barred=lesson in barred)
            for lesson in sorted(lessons, key=lambda each: each not in barred)
            if why[lesson]
        )

    def _say_why(self, lesson: str, place: _Place) -> str:
        """Say why a person isn't offered a lesson in a block; empty where they are."""
        refusal = self.options.find_refusal(self.guest.person_id, lesson)
        if refusal is not None:
            return say_refusal(self.writer.course, refusal)
        return self._say_misfit(self.problem.by_lesson[self.guest.person_id, lesson], place)

    def _say_misfit(self, version: Version, place: _Place) -> str:
        """Say why what somebody may do doesn't go beside the others; empty where it does."""
        (block, time), say = place, self.writer.language.say
        used = _count_used(self.theirs, block)
        if not version.fits(block.count, block.family):
            return say("another count or position than this block has")
        if version.is_new:
            return say("new to them, and no close look was planned for it")
        if version.minutes > time.minutes:
            return say("it takes longer than this block")
        if version.is_loaded and not time.is_loaded:
            return say("it is work, and no rest follows this block")
        if any(
            count + used.get(prop, 0) > self.problem.props[prop] for prop, count in version.props
        ):
            return say("no prop is left for them")
        return ""

    def _list_cautions(self, turns: Sequence[Sequence[TurnView]]) -> Iterator[str]:
        """Go through what holds for the person: what stops or asks first, then what changes."""
        course = self.writer.course
        barriers = [each for found in self.guest.barriers.values() for each in found]
        yield from say_stops(course, barriers)
        for each in barriers:
            if each.kind is BarrierKind.ASK_FIRST:
                yield say_barrier(course, each)
        for turn in (turn for own in turns for turn in own):
            yield from turn.cautions


def _count_used(problem: ClassProblem, block: PlannedBlock) -> Mapping[str, int]:
    """Return how many of each prop the people of a block use."""
    used: Counter[str] = Counter()
    for turn in block.turns:
        version = problem.by_lesson.get((turn.person_id, turn.lesson_id))
        used.update(dict(version.props) if version else {})
    return used
