"""A class plan as lines of text: what everybody shares, each person's version, and why."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from builder.course.course import Course
from builder.planning.class_plan.explain import Reason
from builder.planning.class_plan.problem import ClassProblem
from builder.planning.class_plan.score import Score
from builder.planning.class_plan.wishes import Wish
from builder.planning.permission import Adaptation
from builder.records.class_order import ClassOrder
from builder.records.person import Person
from builder.records.plan import OWN_PACE, ClassPlan, PlannedBlock
from builder.report.lack_words import say_breach, say_reason, say_wish
from builder.report.placement_words import say_adaptation

_MINUTE = 60


@dataclass(frozen=True)
class PlanView:
    """All that is told of a plan."""

    course: Course
    order: ClassOrder
    problem: ClassProblem
    plan: ClassPlan
    score: Score
    reasons: Sequence[Reason]
    wishes: Sequence[Wish]
    people: Mapping[str, Person]
    adaptations: Mapping[tuple[str, str], Sequence[Adaptation]]
    """What changes in a lesson for a person, by person and lesson."""
    verdict: str
    """How good the plan is, or what was done with it."""


def write_class(view: PlanView) -> str:
    """Write a plan for a coach."""
    return "\n".join(
        (
            *_write_head(view),
            *_write_blocks(view),
            "",
            *_write_cautions(view),
            *_write_faults(view),
            *_write_wishes(view),
            view.verdict,
            "",
            view.course.settings.caution.strip(),
        )
    )


def _write_head(view: PlanView) -> Iterator[str]:
    order, people = view.order, len(view.plan.people)
    coaches = len(order.coaches)
    yield (
        f"{order.day:%A} {order.day.day} {order.day:%B %Y}, {order.name}: "
        f"{count(people, 'person', 'people')}, {order.minutes} minutes, "
        f"{count(coaches, 'coach', 'coaches')}"
    )
    if order.note:
        yield order.note
    props = _count_props(view)
    if props:
        titles = view.course.vocabulary.props
        listed = ", ".join(f"{titles[prop].title} × {number}" for prop, number in props.items())
        yield f"To lay out: {listed}"


def _count_props(view: PlanView) -> dict[str, int]:
    """Return the most of each prop that one block uses."""
    most: dict[str, int] = {}
    for block in view.plan.blocks:
        used: dict[str, int] = {}
        for turn in block.turns:
            version = view.problem.by_lesson.get((turn.person_id, turn.lesson_id))
            for prop, number in version.props if version else ():
                used[prop] = used.get(prop, 0) + number
        most = {prop: max(most.get(prop, 0), used.get(prop, 0)) for prop in {**most, **used}}
    return {prop: most[prop] for prop in view.course.vocabulary.props if prop in most}


def _write_blocks(view: PlanView) -> Iterator[str]:
    reasons = {(each.block, each.person_id): each for each in view.reasons}
    for number, (block, time) in enumerate(
        zip(view.plan.blocks, view.score.times, strict=True), start=1
    ):
        rest = f", then {time.rest_seconds} s rest" if time.rest_seconds else ""
        yield ""
        yield (
            f"{clock(time.start_seconds)}  Block {number}: {_say_frame(view.course, block)}, "
            f"{time.minutes} min{rest}"
        )
        for turn in block.turns:
            lesson = view.course.by_id.get(turn.lesson_id)
            title = lesson.title if lesson else turn.lesson_id
            reason = reasons.get((number, turn.person_id))
            parts = [f"       {_call(view, turn.person_id)}: {title}"]
            parts += _say_own_pace(view, block, turn.person_id, turn.lesson_id)
            parts += ["look closely"] if turn.has_close_look else []
            parts += [say_reason(view.course, reason)] if reason else []
            yield "; ".join(parts)


def _say_own_pace(view: PlanView, block: PlannedBlock, person: str, lesson: str) -> list[str]:
    version = view.problem.by_lesson.get((person, lesson))
    keeps = version is not None and version.count == OWN_PACE != block.count
    return ["at their own pace"] if keeps else []


def _say_frame(course: Course, block: PlannedBlock) -> str:
    title = course.vocabulary.families.get(block.family, block.family)
    return f"{title}, {block.count}"


def _call(view: PlanView, person_id: str) -> str:
    person = view.people.get(person_id)
    return f"{person_id} {person.name}" if person else person_id


def _write_cautions(view: PlanView) -> Iterator[str]:
    """Write what changes for each person, each caution once, with the lessons it holds for."""
    for person_id in view.plan.people:
        told: dict[str, list[str]] = {}
        for block in view.plan.blocks:
            for turn in block.turns:
                if turn.person_id == person_id:
                    key = (person_id, turn.lesson_id)
                    for each in view.adaptations.get(key, ()):
                        told.setdefault(say_adaptation(view.course, each), []).append(key[1])
        if told:
            yield f"Cautions for {_call(view, person_id)}"
        for words, lessons in told.items():
            titles = dict.fromkeys(view.course.by_id[name].title for name in lessons)
            yield f"  {', '.join(titles)}: {words}"
        if told:
            yield ""


def _write_faults(view: PlanView) -> Iterator[str]:
    if view.score.breaches:
        yield "This plan can't be taught as it stands"
        for breach in view.score.breaches:
            yield f"  {say_breach(view.course, breach)}"
        yield ""


def _write_wishes(view: PlanView) -> Iterator[str]:
    if view.wishes:
        yield "Not in this class"
        for wish in view.wishes:
            yield f"  {say_wish(view.course, wish)}"
        yield ""


def clock(seconds: int) -> str:
    """Write a time since the start as minutes and seconds."""
    return f"{seconds // _MINUTE:2}:{seconds % _MINUTE:02}"


def count(number: int, one: str, many: str) -> str:
    """Write a number with its noun."""
    return f"{number} {one if number == 1 else many}"
