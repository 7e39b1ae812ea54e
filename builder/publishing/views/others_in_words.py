"""Who else may come to a planned class, and what was checked for each of them, block by block.

Only what somebody did before is offered (ours): what is new to a person wants a coach's close look,
and that is planned. A class planned anew offers more.
"""

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import replace

from builder.course.course import Course
from builder.planning.class_plan.guests import find_guest
from builder.planning.class_plan.options import Options
from builder.planning.class_plan.planned import PlannedClass
from builder.planning.class_plan.problem import ClassProblem, Version
from builder.planning.class_plan.score import BlockTime, score_plan
from builder.planning.class_plan.spare import find_spare
from builder.publishing.views.class_view import OtherView
from builder.publishing.views.turn_in_words import TurnWriter
from builder.records.plan import PlannedBlock, Turn
from builder.records.program import Program

_Blocks = Sequence[tuple[PlannedBlock, BlockTime]]


def view_others(course: Course, program: Program, planned: PlannedClass) -> tuple[OtherView, ...]:
    """Return who of a program isn't planned for and may do something in this class.

    Nothing is offered that is barred for them, takes longer than its block, needs a prop that the
    others use, or is work without a rest after it. Coaches of the class are left out.
    """
    blocks = _list_blocks(planned)
    absent = sorted(set(program.people) - {*planned.plan.people, *planned.order.coaches})
    views = (_view_other(course, program, planned, person, blocks) for person in absent)
    return tuple(view for view in views if any(view.turns))


def _view_other(
    course: Course, program: Program, planned: PlannedClass, person: str, blocks: _Blocks
) -> OtherView:
    guest = find_guest(course, program, person, planned.order.day)
    problem = Options(course, planned.order, (guest,)).pose()
    own = replace(planned, guests={**planned.guests, person: guest}, problem=problem)
    writer = TurnWriter(course, program, own)
    turns = tuple(
        tuple(
            writer.view(place[0], Turn(person, version.lesson_id))
            for version in problem.versions[person]
            if _fits(version, place, problem, _count_used(planned.problem, place[0]))
        )
        for place in blocks
    )
    return OtherView(person, program.people[person].name, turns)


def _list_blocks(planned: PlannedClass) -> _Blocks:
    """Return every block with its time, those to spare last."""
    spare = find_spare(planned.problem, planned.plan)
    every = replace(planned.plan, blocks=(*planned.plan.blocks, *spare))
    return tuple(zip(every.blocks, score_plan(planned.problem, every).times, strict=True))


def _fits(
    version: Version,
    place: tuple[PlannedBlock, BlockTime],
    problem: ClassProblem,
    used: Mapping[str, int],
) -> bool:
    """Tell whether a version fits into a block beside those of the others."""
    block, time = place
    return (
        version.fits(block.count, block.family)
        and version.minutes <= time.minutes
        and (time.is_loaded or not version.is_loaded)
        and not version.is_new
        and all(count + used.get(prop, 0) <= problem.props[prop] for prop, count in version.props)
    )


def _count_used(problem: ClassProblem, block: PlannedBlock) -> Counter[str]:
    """Return how many of each prop the people of a block use."""
    used: Counter[str] = Counter()
    for turn in block.turns:
        version = problem.by_lesson.get((turn.person_id, turn.lesson_id))
        used.update(dict(version.props) if version else {})
    return used
