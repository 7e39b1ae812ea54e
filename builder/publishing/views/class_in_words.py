"""A planned class in words that are ready to print or to show: its blocks, turns and cautions."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace

from builder.course.course import Course
from builder.course.tempo import Tempo
from builder.planning.class_plan.planned import PlannedClass
from builder.planning.class_plan.score import BlockTime, score_plan
from builder.planning.class_plan.spare import find_drop_order, find_spare
from builder.publishing.views.class_view import BlockView, ClassView
from builder.publishing.views.others_in_words import view_others
from builder.publishing.views.turn_in_words import TurnWriter
from builder.publishing.views.wording import word_figures
from builder.records.plan import OWN_PACE, PlannedBlock
from builder.records.program import Program
from builder.records.studio import StudioSettings, take_from_course
from builder.report.placement_words import say_stops

Props = tuple[tuple[str, int], ...]
"""Titles of props and numbers, in the order of the course."""


def view_class(
    course: Course, program: Program, planned: PlannedClass, studio: StudioSettings | None = None
) -> ClassView:
    """Put a class into words; its plan keeps every rule, else KeyError may come of it.

    Where no studio is given, the course's own settings speak for it.
    """
    own, order, settings = studio or take_from_course(course), planned.order, course.settings
    writer = TurnWriter(course, program, planned)
    blocks, spare = _view_blocks(writer)
    return ClassView(
        title=order.title,
        day=order.day,
        name=order.name,
        note=order.note,
        minutes=order.minutes,
        seconds=planned.score.seconds,
        coaches=order.coaches,
        people=tuple((name, program.people[name].name) for name in planned.plan.people),
        blocks=blocks,
        spare=spare,
        drop=find_drop_order(planned.problem, planned.plan),
        props=_take_most(course, (block.props for block in blocks)),
        cautions=tuple(_gather_cautions(writer, (*blocks, *spare))),
        language=settings.language,
        studio=", ".join(part for part in (own.name, own.contact) if part),
        accent=own.colours.accent,
        caution=settings.caution.strip(),
        others=view_others(course, program, planned),
    )


def _view_blocks(writer: TurnWriter) -> tuple[tuple[BlockView, ...], tuple[BlockView, ...]]:
    """Return the blocks of the plan, and those that may follow them."""
    planned = writer.planned
    spare = find_spare(planned.problem, planned.plan)
    every = replace(planned.plan, blocks=(*planned.plan.blocks, *spare))
    times = score_plan(planned.problem, every).times
    views = tuple(
        _view_block(writer, number, block, time)
        for number, (block, time) in enumerate(zip(every.blocks, times, strict=True), start=1)
    )
    count = len(planned.plan.blocks)
    return views[:count], views[count:]


def _view_block(writer: TurnWriter, number: int, block: PlannedBlock, time: BlockTime) -> BlockView:
    course = writer.course
    tempo = None if block.count == OWN_PACE else Tempo.parse(block.count)
    turns = tuple(writer.view(block, turn) for turn in block.turns)
    return BlockView(
        number=number,
        start_seconds=time.start_seconds,
        minutes=time.minutes,
        rest_seconds=time.rest_seconds,
        count=word_figures(writer.language, tempo),
        tempo=tempo,
        family=course.vocabulary.families.get(block.family, block.family),
        is_loaded=time.is_loaded,
        props=_sum_up(course, (turn.props for turn in turns)),
        turns=turns,
    )


def _sum_up(course: Course, uses: Iterable[Props]) -> Props:
    """Return how many of each prop all need together."""
    total: dict[str, int] = {}
    for title, count in (each for props in uses for each in props):
        total[title] = total.get(title, 0) + count
    return _put_in_order(course, total)


def _take_most(course: Course, uses: Iterable[Props]) -> Props:
    """Return the most of each prop that one block needs."""
    most: dict[str, int] = {}
    for title, count in (each for props in uses for each in props):
        most[title] = max(most.get(title, 0), count)
    return _put_in_order(course, most)


def _put_in_order(course: Course, props: dict[str, int]) -> Props:
    titles = dict.fromkeys(prop.title for prop in course.vocabulary.props.values())
    return tuple((title, props[title]) for title in titles if title in props)


def _gather_cautions(
    writer: TurnWriter, blocks: Sequence[BlockView]
) -> Iterator[tuple[str, tuple[str, ...]]]:
    """Name everybody for whom something changes, each sentence once, in the order of the class.

    What stops some of their lessons comes first: no turn of the plan would say it.
    """
    for person in writer.planned.plan.people:
        barriers = writer.planned.guests[person].barriers.values()
        stops = say_stops(writer.course, (each for found in barriers for each in found))
        turns = (turn for block in blocks for turn in block.turns if turn.person_id == person)
        own = dict.fromkeys((*stops, *(caution for turn in turns for caution in turn.cautions)))
        if own:
            yield person, tuple(own)
