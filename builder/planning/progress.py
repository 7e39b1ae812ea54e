"""Progress: in each strand, whether a person goes on, stays, goes back or waits, and why.

The rules are those of `builder/sums/advance.py`, all of them ours.
"""

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, replace
from enum import StrEnum

from builder.course.course import Course
from builder.course.dose import Dose
from builder.course.lesson import Lesson
from builder.planning.standing import OnceMore, Standing
from builder.records.attendance import Attendance, Outcome
from builder.sums.advance import AGAIN_IN_A_ROW, is_stuck, was_too_much
from builder.sums.practice import Rest, find_next_rest

IsBarred = Callable[[str], bool]
"""Tells whether a person may not do a lesson, by its id."""


class Direction(StrEnum):
    """Which way a person goes in a strand."""

    START = "start"
    """Nothing of the strand was done yet."""
    FORWARD = "forward"
    STAY = "stay"
    BACK = "back"
    WAIT = "wait"
    """Nothing can be done before other lessons are known, or because all that is left is barred."""
    DONE = "done"


class ReasonKind(StrEnum):
    """Why a person goes that way; each says what lessons and number it tells of."""

    PLACED = "placed"
    """The lesson is the one at which they were placed."""
    FIRST = "first"
    """The lesson is the first one that is open."""
    KNOWN = "known"
    """The lessons are known, so the next one follows."""
    LEFT_OUT = "left-out"
    """The lesson was left out so far; others of its level or above are known."""
    NOT_YET = "not-yet"
    """The lesson isn't known yet; the number counts the times it was ready at the end."""
    STUCK = "stuck"
    """The lesson was ``again`` so many times in a row."""
    TOO_MUCH = "too-much"
    """The lesson was ``easier`` twice in a row, so an easier one comes first, if any."""
    AWAY = "away"
    """The lesson is shown once more after six weeks away."""
    LOST_BEFORE = "lost-before"
    """The lesson is shown once more, because what it builds on was too much."""
    BARRED = "barred"
    """The lessons come next by their order, and are barred for this person."""
    NEEDS = "needs"
    """The lessons have to be known before the one that waits."""
    ALL_KNOWN = "all-known"


@dataclass(frozen=True, slots=True)
class Reason:
    """One reason, as data."""

    kind: ReasonKind
    lesson_ids: tuple[str, ...] = ()
    number: int | None = None
    waiting_id: str = ""
    """The lesson that comes after them, where they have to be known first."""


@dataclass(frozen=True, slots=True)
class Progress:
    """How one person goes on in one strand."""

    strand_id: str
    direction: Direction
    lesson_id: str = ""
    """What to do next, at times in another strand; empty where the strand waits or is done."""
    reasons: tuple[Reason, ...] = ()
    alternatives: tuple[str, ...] = ()
    """Other open lessons of the strand at the same level, in teaching order."""


_LONGEST_REST_SECONDS = 600
"""The longest rest that a dose may have, and that the sum is made for."""
_ONCE_MORE = {
    OnceMore.AWAY: ReasonKind.AWAY,
    OnceMore.LOST_BEFORE: ReasonKind.LOST_BEFORE,
}


def find_progress(course: Course, standing: Standing, is_barred: IsBarred) -> tuple[Progress, ...]:
    """Return how a person goes on in each strand, strands in the order of the course."""
    return tuple(
        _Strand(course, standing, is_barred, strand_id).find()
        for strand_id in course.vocabulary.strands
        if course.lessons_of(strand_id)
    )


def find_rest(
    lesson: Lesson, attendance: Iterable[Attendance], outcomes: Sequence[Outcome]
) -> Rest | None:
    """Return the rest after a set when a person does a lesson next; None where nothing is counted.

    Takes that person's rows in order of their days, and the lesson's outcomes, one a day. It starts
    from the rest of the newest row that has one, else from the lesson's own, and shortens only
    after ``ready`` twice in a row (ours). A pause too long to be a rest is passed over.
    """
    dose = lesson.drill.dose
    if not isinstance(dose, Dose):
        return None
    own = (row.rest_seconds for row in attendance if row.lesson_id == lesson.id)
    rested = [each for each in own if each is not None and each <= _LONGEST_REST_SECONDS]
    return find_next_rest(rested[-1] if rested else dose.rest_seconds, outcomes)


def count_ready(outcomes: Sequence[Outcome]) -> int:
    """Return how often the last outcomes were ready without a break."""
    count = 0
    for outcome in reversed(outcomes):
        if outcome is not Outcome.READY:
            break
        count += 1
    return count


@dataclass(frozen=True, slots=True)
class _Strand:
    """One strand of one person."""

    course: Course
    standing: Standing
    is_barred: IsBarred
    strand_id: str

    def find(self) -> Progress:
        """Look for a way back first, then for what isn't finished, then for a way on."""
        lessons = self.course.lessons_of(self.strand_id)
        if all(lesson.id in self.standing.known for lesson in lessons):
            return Progress(self.strand_id, Direction.DONE, reasons=(Reason(ReasonKind.ALL_KNOWN),))
        return self._go_easier() or self._show_again() or self._stay() or self._go_on()

    def _list_open(self) -> list[Lesson]:
        """Return the open lessons of the strand that aren't barred, in teaching order."""
        return [lesson for lesson in self._list_next() if not self.is_barred(lesson.id)]

    def _list_next(self) -> list[Lesson]:
        every = (self.course.by_id[name] for name in self.standing.open)
        return [lesson for lesson in every if lesson.strand.id == self.strand_id]

    def _list_barred(self) -> tuple[Reason, ...]:
        barred = tuple(lesson.id for lesson in self._list_next() if self.is_barred(lesson.id))
        return (Reason(ReasonKind.BARRED, barred),) if barred else ()

    def _go_easier(self) -> Progress | None:
        """Send the person to an easier lesson where one of the strand was too much."""
        hard = [self.course.by_id[name] for name in self.standing.too_much]
        lesson = next((each for each in hard if each.strand.id == self.strand_id), None)
        if lesson is None:
            return None
        reason = Reason(ReasonKind.TOO_MUCH, (lesson.id,))
        easier = [name for name in lesson.easier if name in self.course.by_id]
        may_do = self.standing.known.union(self.standing.open)
        fitting = [name for name in easier if name in may_do and not self.is_barred(name)]
        if not fitting:
            barred = tuple(name for name in easier if self.is_barred(name))
            first = self.course.by_id[easier[0]]
            why = Reason(ReasonKind.BARRED, barred) if barred else self._need(first)
            return Progress(self.strand_id, Direction.WAIT, reasons=(reason, why))
        return Progress(self.strand_id, Direction.BACK, fitting[0], (reason,), tuple(fitting[1:]))

    def _show_again(self) -> Progress | None:
        """Go back to what is to be shown once more."""
        waiting = [lesson for lesson in self._list_open() if lesson.id in self.standing.once_more]
        if not waiting:
            return None
        chosen = min(waiting, key=lambda lesson: lesson.level)
        reason = Reason(_ONCE_MORE[self.standing.once_more[chosen.id]], (chosen.id,))
        return self._choose(chosen, Direction.BACK, (reason,), waiting)

    def _stay(self) -> Progress | None:
        """Stay with the lesson that was last worked on where it isn't known yet."""
        permitted = self._list_open()
        current = self.standing.current.get(self.strand_id, "")
        chosen = next((lesson for lesson in permitted if lesson.id == current), None)
        if chosen is None:
            return None
        outcomes = self.standing.tries[current]
        reasons = [Reason(ReasonKind.NOT_YET, (current,), count_ready(outcomes))]
        if is_stuck(outcomes):
            reasons.append(Reason(ReasonKind.STUCK, (current,), AGAIN_IN_A_ROW))
        return self._choose(chosen, Direction.STAY, tuple(reasons), permitted)

    def _go_on(self) -> Progress:
        permitted = self._list_open()
        if not permitted:
            return self._wait()
        current = self.course.by_id.get(self.standing.current.get(self.strand_id, ""))
        placed = [lesson for lesson in permitted if lesson.id in self.standing.placed]
        if current is None and placed:
            reason = Reason(ReasonKind.PLACED, (placed[0].id,))
            return self._skip(self._choose(placed[0], Direction.START, (reason,), permitted))
        harder = current.harder if current else ()
        chosen = min(permitted, key=lambda lesson: (lesson.id not in harder, lesson.level))
        direction = Direction.START if current is None else Direction.FORWARD
        reason = self._say_why(chosen, current)
        return self._skip(self._choose(chosen, direction, (reason,), permitted))

    def _say_why(self, chosen: Lesson, current: Lesson | None) -> Reason:
        known = [
            lesson
            for lesson in self.course.lessons_of(self.strand_id)
            if lesson.id in self.standing.known
        ]
        if any(lesson.level >= chosen.level for lesson in known):
            return self._say_why_only_now(chosen)
        if current is None or current.id not in self.standing.known:
            return Reason(ReasonKind.FIRST, (chosen.id,))
        return Reason(ReasonKind.KNOWN, (current.id,))

    def _say_why_only_now(self, chosen: Lesson) -> Reason:
        """Say what became of a lesson while others of its level or above are known."""
        outcomes = self.standing.tries.get(chosen.id, ())
        if not outcomes:
            return Reason(ReasonKind.LEFT_OUT, (chosen.id,))
        if was_too_much(outcomes):
            return Reason(ReasonKind.TOO_MUCH, (chosen.id,))
        return Reason(ReasonKind.NOT_YET, (chosen.id,), count_ready(outcomes))

    def _choose(
        self, chosen: Lesson, direction: Direction, reasons: tuple[Reason, ...], among: list[Lesson]
    ) -> Progress:
        others = tuple(
            lesson.id for lesson in among if lesson.level == chosen.level and lesson != chosen
        )
        return Progress(self.strand_id, direction, chosen.id, reasons, others)

    def _skip(self, progress: Progress) -> Progress:
        """Add what is open too, but barred."""
        return replace(progress, reasons=(*progress.reasons, *self._list_barred()))

    def _wait(self) -> Progress:
        barred = self._list_barred()
        if barred:
            return Progress(self.strand_id, Direction.WAIT, reasons=barred)
        waiting = min(self._list_left(), key=self._tell_distance)
        return Progress(self.strand_id, Direction.WAIT, reasons=(self._need(waiting),))

    def _list_left(self) -> list[Lesson]:
        lessons = self.course.lessons_of(self.strand_id)
        return [lesson for lesson in lessons if lesson.id not in self.standing.known]

    def _tell_distance(self, lesson: Lesson) -> tuple[bool, bool, int, int]:
        """Order what can't be done yet: what waits for other strands only, then what is next."""
        missing = self._need(lesson).lesson_ids
        own = {each.id for each in self._list_left()}
        levels = [
            each.level
            for each in self.course.lessons_of(self.strand_id)
            if each.id in self.standing.known
        ]
        is_left_out = lesson.level <= max(levels, default=lesson.level - 1)
        return not own.isdisjoint(missing), is_left_out, len(missing), lesson.level

    def _need(self, lesson: Lesson) -> Reason:
        missing = tuple(name for name in lesson.builds_on if name not in self.standing.met)
        return Reason(ReasonKind.NEEDS, missing, waiting_id=lesson.id)
