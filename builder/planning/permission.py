"""Permission: what bars a person from a lesson on a day, and what changes in it for them.

It clears nobody. It only says what notices, consent and the sums hold against a lesson; a
licensed clinician and local rules come before all of it.
"""

from collections.abc import Collection, Iterable, Iterator
from dataclasses import dataclass
from datetime import date, timedelta
from enum import StrEnum

from builder.course.course import Course
from builder.course.lesson import Lesson
from builder.course.notice import Action, Instead, Notice
from builder.errors import BuilderError
from builder.planning.answers import find_answers_on
from builder.planning.moving import Move, find_move, is_cleared, list_shared
from builder.planning.own_body import find_own_share, has_long_sets
from builder.planning.readings import find_comfortable_hold, list_until
from builder.records.person import Person
from builder.records.result import Result
from builder.sums.air import BreathSize
from builder.sums.breath_hold import find_most_at_home_seconds

ASK_AGAIN_AFTER = timedelta(weeks=26)
"""A clinician's answer that is older is asked for again (ours)."""
_HANDS_ON = "hands-on"
_ROUNDING = 1e-9


class BarrierKind(StrEnum):
    """Why a person may not do a lesson, strongest first."""

    STOP = "stop"
    """A notice of the lesson says that people with this condition leave it out."""
    ASK_FIRST = "ask-first"
    """A licensed clinician comes first, and no answer is on record."""
    POSITION = "position"
    """A notice moves it, and no position that the person's notices name suits all of them."""
    ANSWER = "answer"
    """They said of themselves what the placement table takes as a reason to leave it out."""
    HOLD = "hold"
    """The count holds longer than half of their comfortable hold, or none is on record."""
    AIR = "air"
    """A breath of a long set is bigger than what equations predict for such a body."""


@dataclass(frozen=True, slots=True)
class Barrier:
    """One thing that bars a person from a lesson."""

    kind: BarrierKind
    notice_id: str = ""
    conditions: tuple[str, ...] = ()
    """The person's own ones that the notice names."""
    question_id: str = ""
    answer: str = ""
    """The id of what they answered to it, as the newest record has it."""
    hold_seconds: float | None = None
    """The longest hold of the count."""
    most_hold_seconds: float | None = None
    """Half of the comfortable hold; None where none is on record."""
    air_percent: int | None = None
    """The needed breath in percent of the predicted inspiratory capacity."""


class AdaptationKind(StrEnum):
    """What changes for a person in a lesson that they may do."""

    CLEARED = "cleared"
    """A clinician said yes to what a notice asks about; the notice goes on holding."""
    ADAPT = "adapt"
    """The lesson is done in the way that a notice says."""
    HANDS_ON = "hands-on"
    """No consent to a coach's hands is on record: words only."""
    AIR = "air"
    """Breaths are big for such a body: of a long set, or too big by the sum in a short one."""


@dataclass(frozen=True, slots=True)
class Adaptation:
    """One thing that is different for a person."""

    kind: AdaptationKind
    notice: Notice | None = None
    conditions: tuple[str, ...] = ()
    cleared_on: tuple[date, ...] = ()
    """The day of the clinician's answer for each condition; none where one lacks or is too old."""
    ask_again: tuple[str, ...] = ()
    """Conditions whose answer is older than 26 weeks; a remark and no barrier."""
    air_percent: int | None = None
    instead: Instead | None = None
    """Where the lesson is done, so that it suits all of the person's notices; the same for each
    that moves it."""

    @property
    def is_moved_on(self) -> bool:
        """Tell whether the notice's own words name another position than the person's."""
        named = self.notice.instead if self.notice else None
        return named is not None and self.instead not in (None, named)

    @property
    def text(self) -> str:
        """Return what the notice says to do; empty where no notice adapts the lesson."""
        return self.notice.adapt if self.notice and self.kind is AdaptationKind.ADAPT else ""


def find_barriers(
    course: Course, person: Person, results: Collection[Result], lesson: Lesson, day: date
) -> tuple[Barrier, ...]:
    """Return what bars a person from a lesson on a day, strongest first; nothing where they may.

    Results of other people and of later days don't count. Raises BuilderError where a notice of
    the course can't be read or is missing, since what it says might bar the lesson.
    """
    refuse_lost_notices(course)
    move = find_move(course, person, lesson, day)
    notices = _list_notices(course, lesson, move)
    traits = course.traits_by_lesson[lesson.id] | (move.traits if move else frozenset())
    return (
        *_find_stops(notices, person),
        *_find_questions(notices, person, day),
        *_find_no_position(person, move),
        *_find_answers_against(course, person, results, traits, day=day),
        *_find_hold(person, results, lesson, day),
        *_find_too_little_air(person, lesson, day),
    )


def find_general_questions(course: Course, person: Person, day: date) -> tuple[Barrier, ...]:
    """Return why a person asks a clinician before any lesson at all."""
    refuse_lost_notices(course)
    everywhere = (notice for notice in course.notices if notice.everywhere)
    return tuple(_find_questions(everywhere, person, day))


def find_adaptations(
    course: Course, person: Person, lesson: Lesson, *, day: date | None = None
) -> tuple[Adaptation, ...]:
    """Return what changes in a lesson for a person, in the order of the lesson's notices.

    The day is that on which the course was read where none is given. Raises BuilderError where a
    notice of the course can't be read.
    """
    refuse_lost_notices(course)
    on = course.day if day is None else day
    move = find_move(course, person, lesson, on)
    notices = _list_notices(course, lesson, move)
    return (
        *_find_cleared(notices, person, on),
        *_find_adapted(notices, person, move, on),
        *_find_words_only(course, person, lesson, on),
        *_find_big_breaths(person, lesson, on),
    )


def list_uncleared(person: Person, day: date) -> tuple[str, ...]:
    """Return the conditions for which no clinician had said yes up to a day."""
    return tuple(name for name in person.conditions if not is_cleared(person, name, day))


def refuse_lost_notices(course: Course) -> None:
    """Raise BuilderError where a notice that the course lists is missing or can't be read."""
    there = {notice.id for notice in course.notices} | course.unreadable_notices
    lost = [name for name in course.settings.notices or () if name not in there]
    if lost:
        raise BuilderError(
            f'the notice "{lost[0]}" is missing, and what it says might bar a lesson',
            "bring its file back, or take it out of the notices of the course file",
        )
    if course.unreadable_notices:
        name = min(course.unreadable_notices)
        raise BuilderError(
            f'the notice "{name}" can\'t be read, and what it says might bar a lesson',
            "mend what `tempoleaf check` finds in it",
        )


def _list_notices(course: Course, lesson: Lesson, move: Move | None) -> tuple[Notice, ...]:
    """Return the notices of a lesson as a person does it, those of where it is moved included."""
    found = course.notices_for(lesson, move.traits if move else frozenset())
    return (*found, *(each for each in (move.notices if move else ()) if each not in found))


def _find_stops(notices: Iterable[Notice], person: Person) -> Iterator[Barrier]:
    for notice in notices:
        shared = list_shared(person, notice)
        if notice.action is Action.STOP and shared:
            yield Barrier(BarrierKind.STOP, notice.id, shared)


def _find_questions(notices: Iterable[Notice], person: Person, day: date) -> Iterator[Barrier]:
    uncleared = list_uncleared(person, day)
    for notice in notices:
        open_ones = tuple(name for name in list_shared(person, notice) if name in uncleared)
        if notice.action is Action.ASK_FIRST and open_ones:
            yield Barrier(BarrierKind.ASK_FIRST, notice.id, open_ones)


def _find_no_position(person: Person, move: Move | None) -> Iterator[Barrier]:
    """Bar a lesson that is moved and has nowhere to go, since its own position is no choice."""
    if move and move.instead is None:
        notice = move.notices[0]
        yield Barrier(BarrierKind.POSITION, notice.id, list_shared(person, notice))


def _find_answers_against(
    course: Course,
    person: Person,
    results: Collection[Result],
    traits: frozenset[str],
    *,
    day: date,
) -> Iterator[Barrier]:
    questions = course.placement.questions if course.placement else ()
    barring = {
        (question.id, answer)
        for question in questions
        for answer, barred in question.evidence.bars.items()
        if not barred.isdisjoint(traits)
    }
    if barring:
        for found in find_answers_on(course, person, results, (), day).found:
            if (found.question_id, found.value) in barring:
                yield Barrier(
                    BarrierKind.ANSWER, question_id=found.question_id, answer=str(found.value)
                )


def _find_hold(
    person: Person, results: Collection[Result], lesson: Lesson, day: date
) -> Iterator[Barrier]:
    """Compare the count's hold with half of the comfortable one.

    A lesson that holds without a count, as the check that measures a hold, asks for no record.
    """
    tempo = lesson.drill.tempo
    if tempo is None or not tempo.has_breath_hold:
        return
    best = find_comfortable_hold(list_until(results, person.id, day))
    most = None if best is None else find_most_at_home_seconds(best.seconds)
    if most is None or tempo.longest_hold_seconds > most + _ROUNDING:
        yield Barrier(
            BarrierKind.HOLD, hold_seconds=tempo.longest_hold_seconds, most_hold_seconds=most
        )


def _find_too_little_air(person: Person, lesson: Lesson, day: date) -> Iterator[Barrier]:
    """Bar long sets only: in short ones the sum is an upper bound, shown and no more (ours)."""
    share = find_own_share(person, lesson, day)
    if share is not None and share.size is BreathSize.TOO_BIG and has_long_sets(lesson):
        yield Barrier(BarrierKind.AIR, air_percent=share.percent)


def _find_cleared(notices: Iterable[Notice], person: Person, day: date) -> Iterator[Adaptation]:
    for notice in notices:
        yes = tuple(name for name in list_shared(person, notice) if is_cleared(person, name, day))
        if notice.action is Action.ASK_FIRST and yes:
            days = tuple(person.cleared[name] for name in yes)
            old = tuple(name for name in yes if _is_old(person, name, day))
            yield Adaptation(AdaptationKind.CLEARED, notice, yes, days, old)


def _find_adapted(
    notices: Iterable[Notice], person: Person, move: Move | None, day: date
) -> Iterator[Adaptation]:
    """Adapt, and name the clinician's answers where all that count are there and none is old."""
    for notice in notices:
        shared = list_shared(person, notice)
        if notice.action is Action.ADAPT and shared:
            is_answered = all(
                is_cleared(person, name, day) and not _is_old(person, name, day) for name in shared
            )
            days = tuple(person.cleared[name] for name in shared) if is_answered else ()
            instead = move.instead if move and notice in move.notices else None
            yield Adaptation(AdaptationKind.ADAPT, notice, shared, days, instead=instead)


def _is_old(person: Person, condition: str, day: date) -> bool:
    return day - person.cleared[condition] > ASK_AGAIN_AFTER


def _find_words_only(
    course: Course, person: Person, lesson: Lesson, day: date
) -> Iterator[Adaptation]:
    has_consent = person.hands_on is not None and person.hands_on <= day
    if _HANDS_ON in course.traits_by_lesson[lesson.id] and not has_consent:
        yield Adaptation(AdaptationKind.HANDS_ON)


def _find_big_breaths(person: Person, lesson: Lesson, day: date) -> Iterator[Adaptation]:
    share = find_own_share(person, lesson, day)
    if share is None or share.size is BreathSize.EASY:
        return
    if share.size is BreathSize.TOO_BIG or has_long_sets(lesson):
        yield Adaptation(AdaptationKind.AIR, air_percent=share.percent)
