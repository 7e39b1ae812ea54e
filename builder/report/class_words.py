"""A class plan as lines of text: what everybody shares, each person's version, and why."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from builder.course.course import Course
from builder.findings import Finding
from builder.planning.class_plan.explain import Reason
from builder.planning.class_plan.guests import Guest
from builder.planning.class_plan.planned import ImpossibleClass, PlannedClass
from builder.planning.own_drill import find_instead
from builder.planning.permission import AdaptationKind
from builder.records.person import Person
from builder.records.plan import OWN_PACE, ClassPlan, PlannedBlock
from builder.report.counted import count
from builder.report.lack_words import say_breach, say_change, say_reason, say_wish
from builder.report.placement_words import say_adaptation, say_barrier, say_stops

_MINUTE = 60
_FULL = 0.9
"""The share of its time that a class is to use; where less is used, the reason is told."""


@dataclass(frozen=True)
class PlanView:
    """All that is told of a plan."""

    course: Course
    people: Mapping[str, Person]
    planned: PlannedClass

    @property
    def plan(self) -> ClassPlan:
        """Return the plan itself."""
        return self.planned.plan


def write_class(view: PlanView, verdict: Sequence[str]) -> str:
    """Write a plan for a coach; the verdict says how good it is, or what was done with it."""
    return "\n".join(
        (
            *_write_head(view),
            *_write_blocks(view),
            "",
            *_write_cautions(view),
            *_write_faults(view),
            *_write_wishes(view),
            *verdict,
            "",
            view.course.settings.caution.strip(),
        )
    )


def _write_head(view: PlanView) -> Iterator[str]:
    order, people = view.planned.order, len(view.plan.people)
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
            version = view.planned.problem.by_lesson.get((turn.person_id, turn.lesson_id))
            for prop, number in version.props if version else ():
                used[prop] = used.get(prop, 0) + number
        most = {prop: max(most.get(prop, 0), used.get(prop, 0)) for prop in {**most, **used}}
    return {prop: most[prop] for prop in view.course.vocabulary.props if prop in most}


def _write_blocks(view: PlanView) -> Iterator[str]:
    reasons = _choose_reasons(view)
    for number, (block, time) in enumerate(
        zip(view.plan.blocks, view.planned.score.times, strict=True), start=1
    ):
        rest = f", then {time.rest_seconds} s rest" if time.rest_seconds else ""
        yield ""
        yield (
            f"{clock(time.start_seconds)}  Block {number}: {_say_frame(view, block)}, "
            f"{time.minutes} min{rest}"
        )
        for turn in block.turns:
            title = view.course.name_lesson(turn.lesson_id)
            reason = reasons.get((number, turn.person_id))
            parts = [f"       {_call(view, turn.person_id)}: {title}"]
            parts += _say_own_pace(view, block, turn.person_id, turn.lesson_id)
            parts += _say_adapted(view, turn.person_id, turn.lesson_id)
            parts += ["look closely"] if turn.has_close_look else []
            parts += [say_reason(view.course, reason)] if reason else []
            yield "; ".join(parts)


def _choose_reasons(view: PlanView) -> dict[tuple[int, str], Reason]:
    """Return reasons by block and person, the same one only where it comes first."""
    told: set[tuple[object, ...]] = set()
    chosen = {}
    for each in view.planned.reasons:
        why = each.refusal or (each.lack and each.lack.fault)
        if (each.person_id, each.better_id, why) not in told:
            told.add((each.person_id, each.better_id, why))
            chosen[each.block, each.person_id] = each
    return chosen


def _say_own_pace(view: PlanView, block: PlannedBlock, person: str, lesson: str) -> list[str]:
    version = view.planned.problem.by_lesson.get((person, lesson))
    keeps = version is not None and version.count == OWN_PACE != block.count
    return ["at their own pace"] if keeps else []


def _say_adapted(view: PlanView, person: str, lesson: str) -> list[str]:
    """Point from a turn to its cautions, be it allowed or not; what is general needs no pointer."""
    changes = view.planned.guests[person].adaptations.get(lesson, ())
    instead = find_instead(changes)
    if instead:
        return [f"{instead.position.title} instead, see the cautions"]
    if any(each.kind is AdaptationKind.ADAPT for each in changes):
        return ["in another way, see the cautions"]
    own = [each for each in changes if each.notice is None or not each.notice.everywhere]
    return ["see the cautions"] if own else []


def _say_frame(view: PlanView, block: PlannedBlock) -> str:
    """Name position and count; a count that nobody keeps is none to be called out."""
    title = view.course.vocabulary.families.get(block.family, block.family)
    turns = ((turn.person_id, turn.lesson_id) for turn in block.turns)
    versions = [view.planned.problem.by_lesson.get(turn) for turn in turns]
    if all(version is None or version.count == OWN_PACE for version in versions):
        return f"{title}, {OWN_PACE}"
    return f"{title}, {block.count}"


def _call(view: PlanView, person_id: str) -> str:
    person = view.people.get(person_id)
    return f"{person_id} {person.name}" if person else person_id


def _write_cautions(view: PlanView) -> Iterator[str]:
    """Write what changes for each person, each caution once, with the lessons it holds for."""
    for person_id in view.plan.people:
        done = dict.fromkeys(
            turn.lesson_id
            for block in view.plan.blocks
            for turn in block.turns
            if turn.person_id == person_id
        )
        told: dict[str, list[str]] = {}
        for name in done:
            for each in view.planned.guests[person_id].adaptations.get(name, ()):
                told.setdefault(say_adaptation(view.course, each), []).append(name)
        barriers = view.planned.guests[person_id].barriers.values()
        stops = say_stops(view.course, (each for own in barriers for each in own))
        if told or stops:
            yield f"Cautions for {_call(view, person_id)}"
        yield from (f"  Left out: {words}" for words in stops)
        for words, lessons in told.items():
            titles = "; ".join(view.course.by_id[name].title for name in lessons)
            yield f"  {'All of it' if len(lessons) == len(done) else titles}: {words}"
        if told or stops:
            yield ""


def _write_faults(view: PlanView) -> Iterator[str]:
    if view.planned.score.breaches:
        yield "This plan can't be taught as it stands"
        for breach in view.planned.score.breaches:
            yield f"  {say_breach(view.course, breach, view.planned.refusals)}"
        yield ""


def _write_wishes(view: PlanView) -> Iterator[str]:
    if view.planned.wishes:
        yield "Not in this class"
        for wish in view.planned.wishes:
            yield f"  {say_wish(view.course, wish)}"
        yield ""


def say_proof(planned: PlannedClass) -> str:
    """Say how good a plan is."""
    whole = f"It takes {clock(planned.score.seconds).strip()} of {planned.order.minutes} minutes"
    points = f"{planned.score.points} points (ours)"
    if planned.bound is None:
        return f"{whole}, and is worth {points}."
    if planned.score.seconds < _FULL * planned.problem.seconds:
        whole += _say_room(planned)
    if planned.is_proven:
        return f"{whole}. Proven best: no plan for this class is worth more than its {points}."
    gap = planned.bound - planned.score.points
    return f"{whole}. Not proven: another plan may be worth up to {gap} more than its {points}."


def _say_room(planned: PlannedClass) -> str:
    """Say why time is left, and what fills it."""
    blocks = len(planned.plan.blocks)
    if blocks == planned.order.most_blocks:
        return f", for {blocks} blocks are the most that its file allows (blocks: {blocks})"
    more = "name more strands, or let lessons be repeated by hand"
    return f", for no further block is worth its waiting: {more}"


def say_left_out(faults: Sequence[Finding]) -> tuple[str, ...]:
    """Say that rows of the records count for nobody here, if any do."""
    if not faults:
        return ()
    many = f"{count(len(faults), 'fault', 'faults')} in the records"
    keeps, which = ("keeps", "it") if len(faults) == 1 else ("keep", "them")
    return (f"{many} {keeps} rows out of this plan: mend {which} first.",)


def write_impossible(course: Course, impossible: ImpossibleClass) -> str:
    """Say that there is no plan for a class, why as far as it is known, and what would help."""
    lines = [f"There is no plan for {impossible.order.title}."]
    for person in impossible.idle:
        why = _say_idle(course, impossible.guests[person])
        lines.append(f"  {person} may do nothing of it today: {why}")
    lines.append(f"  {say_change(course, impossible.change)}")
    return "\n".join(lines)


def _say_idle(course: Course, guest: Guest) -> str:
    """Say what bars somebody from the lessons that are near for them."""
    near = [*guest.standing.known, *guest.standing.open]
    barriers = [each for name in near for each in guest.barriers.get(name, ())]
    said = sorted({say_barrier(course, each) for each in barriers})
    return "; ".join(said) or "they aren't ready yet for any lesson of its strands"


def clock(seconds: int) -> str:
    """Write a time since the start as minutes and seconds."""
    return f"{seconds // _MINUTE:2}:{seconds % _MINUTE:02}"
