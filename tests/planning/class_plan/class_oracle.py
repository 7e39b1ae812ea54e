"""Rules that every class plan must keep, written anew: nothing of the planner's is used.

Only where people start is asked of `place_person`, which has tests of its own. That a lesson waits
for what it builds on, and a class begins without work, is common practice; the numbers are ours.
"""

from collections import Counter
from collections.abc import Iterator
from datetime import date, timedelta
from itertools import pairwise

from builder.course.dose import Sides, TimedDose
from builder.course.lesson import Lesson
from builder.course.notice import Action
from builder.course.reference_body import ReferenceBody
from builder.errors import InvalidValueError
from builder.planning.placing import place_person
from builder.records.plan import ClassPlan, PlannedBlock
from builder.records.result import Result
from builder.sums.air import TOO_BIG_SHARE, find_air_share
from builder.sums.validity import OutsideValidityError
from tests.planning.class_plan.programs import DAY, Case
from tests.planning.starter import read_starter

PACE = "own pace"


class PersonRules:
    """What one person may do on the day of the class."""

    def __init__(self, case: Case, person_id: str) -> None:
        self.course = read_starter()
        self.person = case.program.people[person_id]
        self.order = case.order
        self.rows = [
            row for row in case.program.attendance if row.person_id == person_id and row.day <= DAY
        ]
        self.results = [
            row for row in case.program.results if row.person_id == person_id and row.day <= DAY
        ]
        self.days = {lesson.id: self._list_days(lesson.id) for lesson in self.course.lessons}
        self.letters = {name: "".join(days.values()) for name, days in self.days.items()}
        self.starts = self._find_starts()
        self.before = set[str]().union(*map(self._find_under, self.starts))

    def _list_days(self, lesson_id: str) -> dict[date, str]:
        """Return one letter a day, the weakest of each."""
        days: dict[date, str] = {}
        for row in sorted(self.rows, key=lambda row: row.day):
            if row.lesson_id == lesson_id:
                letter = row.outcome.value[0]
                days[row.day] = min(letter, days.get(row.day, letter), key="ear".index)
        return days

    def _find_starts(self) -> list[str]:
        shown = {name for name in self.letters if self.was_shown(name)}
        starts = place_person(self.course, self.person, self.results, shown, day=DAY)
        return [start.lesson_id for start in starts if start.lesson_id]

    def _find_under(self, lesson_id: str) -> set[str]:
        """Return all that a lesson builds on."""
        direct = self.course.by_id[lesson_id].builds_on
        return set(direct).union(*map(self._find_under, direct))

    def _sign(self, lesson_id: str) -> str:
        is_check = self.course.by_id[lesson_id].strand.aim == "observe"
        return "r" if is_check else "rr"

    def was_shown(self, lesson_id: str) -> bool:
        return self._sign(lesson_id) in self.letters[lesson_id]

    def was_lost(self, lesson_id: str) -> bool:
        """Tell whether it, or what it builds on in its strand, was too much and is so still."""
        letters = self.letters[lesson_id]
        if letters.rfind("ee") > letters.rfind(self._sign(lesson_id)):
            return True
        strand = self.course.by_id[lesson_id].strand
        under = [
            name for name in self._find_under(lesson_id) if self.course.by_id[name].strand == strand
        ]
        lost = max((day for name in under for day in self._list_losses(name)), default=date.min)
        ready = [day for day, letter in self.days[lesson_id].items() if letter == "r"]
        return lost > date.min and max(ready, default=date.min) <= lost

    def _list_losses(self, lesson_id: str) -> list[date]:
        """Return the days on which a lesson was too much for the second time in a row."""
        days = [*self.days[lesson_id].items()]
        return [day for (_, one), (day, two) in pairwise(days) if one + two == "ee"]

    def has(self, lesson_id: str) -> bool:
        """Tell whether something that builds on a lesson need not wait for it."""
        is_met = self.was_shown(lesson_id) or lesson_id in self.before
        return is_met and not self.was_lost(lesson_id)

    def knows(self, lesson_id: str) -> bool:
        """Tell whether it was shown, or lies under a start and is not to be shown itself."""
        strand = self.course.by_id[lesson_id].strand
        in_strand = [name for name in self.starts if self.course.by_id[name].strand == strand]
        is_to_come = any(
            name == lesson_id or name in self._find_under(lesson_id) for name in in_strand
        )
        return self.has(lesson_id) and (self.was_shown(lesson_id) or not is_to_come)

    def was_away(self) -> bool:
        """Tell whether six weeks went by without a class, so that much is to be shown again."""
        days = sorted({row.day for row in self.rows} | {DAY})
        return any(later - day >= timedelta(weeks=6) for day, later in pairwise(days))

    def is_new(self, lesson_id: str) -> bool:
        return not self.letters[lesson_id] and lesson_id not in self.before

    def _leads_there(self, lesson: Lesson) -> bool:
        """Tell whether a lesson leads to the class's strands, of which nothing can be done yet."""
        asked = [each for each in self.course.lessons if each.strand.id in self.order.strands]
        for each in asked:
            is_open = all(self.has(name) for name in each.builds_on)
            if is_open and not self._waits_for_easier(each):
                return False
        waiting, seen = [*asked], set[str]()
        while waiting:
            for name in waiting.pop().builds_on:
                if name not in seen:
                    seen.add(name)
                    waiting.append(self.course.by_id[name])
        return lesson.id in seen

    def list_reasons(self, lesson: Lesson) -> Iterator[str]:
        """Yield why the person may not do a lesson."""
        missing = [name for name in lesson.builds_on if not self.has(name)]
        if missing:
            yield f"needs {missing}"
        if self._waits_for_easier(lesson):
            yield "was too much"
        yield from self._list_notices(lesson)
        yield from self._list_answers(lesson)
        tempo = lesson.drill.tempo
        if tempo and tempo.longest_hold_seconds > 1:
            best = self._find_best_hold()
            if best is None or tempo.longest_hold_seconds > best / 2:
                yield f"holds {tempo.longest_hold_seconds} s of {best}"
        if self._is_short_of_air(lesson):
            yield "a breath too big"
        yesterday = {row.lesson_id for row in self.rows if row.day == DAY - timedelta(days=1)}
        if is_work(lesson) and any(is_work(self.course.by_id[name]) for name in yesterday):
            yield "work yesterday"
        is_asked = not self.order.strands or lesson.strand.id in self.order.strands
        is_warm_up = not is_work(lesson) and (self.knows(lesson.id) or self._leads_there(lesson))
        if not is_asked and not is_warm_up:
            yield "not asked for, and no quiet one that is known"

    def _waits_for_easier(self, lesson: Lesson) -> bool:
        if not self.letters[lesson.id].endswith("ee") or not lesson.easier:
            return False
        lost = max(row.day for row in self.rows if row.lesson_id == lesson.id)
        ready = [row for row in self.rows if row.outcome.value == "ready" and row.day > lost]
        good_days = [row for row in ready if self._was_ready(row.lesson_id, row.day)]
        return not any(row.lesson_id in lesson.easier for row in good_days)

    def _was_ready(self, lesson_id: str, day: date) -> bool:
        that_day = [row for row in self.rows if (row.lesson_id, row.day) == (lesson_id, day)]
        return all(row.outcome.value == "ready" for row in that_day)

    def _list_notices(self, lesson: Lesson) -> Iterator[str]:
        waived = {waiver.notice_id for waiver in lesson.waivers}
        traits = self.course.traits_by_lesson[lesson.id]
        for notice in self.course.notices:
            calls = notice.everywhere or notice.traits & traits
            if not calls or notice.id in waived:
                continue
            met = set(self.person.conditions) & set(notice.conditions)
            if notice.action is Action.STOP and met:
                yield f"{notice.id} says stop"
            answered = {name for name, day in self.person.cleared.items() if day <= DAY}
            if notice.action is Action.ASK_FIRST and met - answered:
                yield f"{notice.id}: no clinician was asked"

    def _list_answers(self, lesson: Lesson) -> Iterator[str]:
        """Yield what they said of themselves that keeps them from the lesson."""
        placement = self.course.placement
        for question in placement.questions if placement else ():
            said = [row.value for row in self.results if row.measure_id == question.id][-1:]
            bars = question.evidence.bars.get(str(*said), frozenset())
            if self.course.traits_by_lesson[lesson.id] & set(bars):
                yield f"said {said[0]} to {question.id}"

    def _find_best_hold(self) -> float | None:
        held = [row for row in self.results if row.measure_id == "breath-hold-seconds"]
        newest = max((row.day for row in held), default=None)
        trials = [row.value for row in held if row.day == newest][:3]
        return max((float(value) for value in trials), default=None)

    def _is_short_of_air(self, lesson: Lesson) -> bool:
        person, tempo = self.person, lesson.drill.tempo
        if tempo is None or person.birth_year is None or person.lung_reference is None:
            return False
        try:
            body = ReferenceBody(
                person.id,
                person.lung_reference,
                DAY.year - person.birth_year,
                person.height_cm or 0,
                person.weight_kg or 0,
            )
            share = find_air_share(tempo.cycle_seconds, lesson.drill.effort.met, body).share
        except (InvalidValueError, OutsideValidityError):
            return False
        dose = lesson.drill.dose
        is_timed = isinstance(dose, TimedDose)
        set_seconds = dose.minutes * 60 if is_timed else dose.breaths * tempo.cycle_seconds
        return set_seconds >= 60 and share >= TOO_BIG_SHARE

    def find_seconds(self, lesson: Lesson) -> float:
        """Return how long the lesson takes; one set more where one side of the ribs is slower."""
        dose, tempo = lesson.drill.dose, lesson.drill.tempo
        if isinstance(dose, TimedDose):
            return dose.minutes * 60
        rounds = dose.sets
        if dose.sides is Sides.EACH:
            rounds = 2 * dose.sets + self._has_slower_side()
        cycle = tempo.cycle_seconds if tempo else 4
        return rounds * dose.breaths * cycle + (rounds - 1) * dose.rest_seconds

    def _has_slower_side(self) -> bool:
        words: list[Result] = [row for row in self.results if row.measure_id == "rib-sides"]
        return bool(words) and words[-1].value in ("left first", "right first")


def is_work(lesson: Lesson) -> bool:
    drill = lesson.drill
    return (
        any(use.prop.load for use in drill.props)
        or "load" in (drill.named_traits | drill.position.traits)
        or drill.effort.rank > 0
    )


def find_broken_rules(case: Case, plan: ClassPlan) -> Iterator[str]:
    """Yield each rule that a plan breaks."""
    people = {name: PersonRules(case, name) for name in case.order.people}
    if not 1 <= len(plan.blocks) <= case.order.most_blocks:
        yield f"{len(plan.blocks)} blocks"
    for number, block in enumerate(plan.blocks, 1):
        for fault in _find_block_faults(case, block, people):
            yield f"block {number}: {fault}"
    if any(is_work(lesson) for _, lesson in list_turns(plan.blocks[0])):
        yield "begins with work"
    yield from _find_too_much(case, plan, people)
    if find_class_seconds(case, plan, people) > case.order.minutes * 60:
        yield "too long"


def list_turns(block: PlannedBlock) -> list[tuple[str, Lesson]]:
    lessons = read_starter().by_id
    return [(turn.person_id, lessons[turn.lesson_id]) for turn in block.turns]


def _find_block_faults(
    case: Case, block: PlannedBlock, people: dict[str, PersonRules]
) -> Iterator[str]:
    if sorted(turn.person_id for turn in block.turns) != sorted(people):
        yield "not everybody"
    used: Counter[str] = Counter()
    for person, lesson in list_turns(block):
        for reason in people[person].list_reasons(lesson):
            yield f"{person} {lesson.id} {reason}"
        tempo = lesson.drill.tempo
        if (tempo and str(tempo) != block.count) or lesson.drill.position.family != block.family:
            yield f"{lesson.id} doesn't fit {block.count} {block.family}"
        used.update({use.prop.id: use.count for use in lesson.drill.props})
    for prop, number in used.items():
        there = case.order.props.get(prop, read_starter().vocabulary.props[prop].class_set)
        if there is not None and number > there:
            yield f"{number} {prop} of {there}"
    looks = {turn.person_id: turn.has_close_look for turn in block.turns}
    if sum(looks.values()) > len(case.order.coaches):
        yield f"{sum(looks.values())} close looks"
    for person, lesson in list_turns(block):
        if people[person].is_new(lesson.id) and not looks[person]:
            yield f"{person} {lesson.id} is new, and nobody looks"


def _find_too_much(case: Case, plan: ClassPlan, people: dict[str, PersonRules]) -> Iterator[str]:
    done = Counter((turn.person_id, turn.lesson_id) for each in plan.blocks for turn in each.turns)
    for key, times in done.items():
        if times > (1 if key[1] == "comfortable-hold" else 2):  # three tries in all, it says
            yield f"{key} {times} times"
    new = Counter(person for person, lesson in done if people[person].is_new(lesson))
    for person, number in new.items():
        if number > case.order.most_new:
            yield f"{number} new to {person}"


def find_class_seconds(case: Case, plan: ClassPlan, people: dict[str, PersonRules]) -> int:
    """Return the time with set-up, rests after work, and a minute to get to each position."""
    seconds, family = 0, ""
    set_up = read_starter().settings.limits.set_up_seconds
    for block in plan.blocks:
        longest = max(people[who].find_seconds(lesson) for who, lesson in list_turns(block))
        seconds += set_up + 60 * int(-(-longest // 60)) + 60 * (block.family != family)
        if any(is_work(lesson) for _, lesson in list_turns(block)):
            seconds += case.order.rest_seconds
        family = block.family
    return seconds
