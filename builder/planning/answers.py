"""Answers: what a coach's records say to the questions of the placement table, and whence."""

from collections.abc import Collection, Mapping
from dataclasses import dataclass
from datetime import date
from enum import StrEnum

from builder.course.course import Course
from builder.course.placement import Question
from builder.planning.placement import Answers
from builder.planning.readings import find_best_hold, is_read_in, list_until
from builder.records.person import Person
from builder.records.result import Result


class Origin(StrEnum):
    """Where an answer comes from."""

    HISTORY = "history"
    """A lesson in which the person is ready."""
    RESULT = "result"
    """A reading of a measure, or an answer that was written down."""
    CONDITION = "condition"
    """What the person brings."""
    OTHERWISE = "otherwise"
    """Nothing is on record, and the table names the answer for that."""


@dataclass(frozen=True, slots=True)
class FoundAnswer:
    """One answer and where it comes from."""

    question_id: str
    value: str | float
    """The id of an answer, or seconds."""
    origin: Origin
    day: date | None = None
    """The day of the result."""
    lesson_id: str = ""
    """The lesson that the person is ready in."""
    conditions: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class FoundAnswers:
    """What records answer, in the order of the table's questions."""

    found: tuple[FoundAnswer, ...]
    missing: tuple[str, ...]
    """Questions to which nothing on record is an answer."""

    @property
    def values(self) -> Answers:
        """Return the answers as the table takes them."""
        return {answer.question_id: answer.value for answer in self.found}


def find_answers_on(
    course: Course,
    person: Person,
    results: Collection[Result],
    ready_lessons: Collection[str],
    day: date,
) -> FoundAnswers:
    """Return what records up to a day answer to each question.

    History comes before a result: what somebody showed outweighs what they said. A condition never
    makes an answer less careful; of its answer and the other one the later of the question's
    answers counts, because those go from the easiest to the most careful (ours).
    """
    rows = list_until(results, person.id, day)
    questions = course.placement.questions if course.placement else ()
    answers = {
        question.id: _take_more_careful(
            question,
            _find_by_condition(question, person),
            _find_by_history(question, ready_lessons)
            or _find_by_result(course, question, rows)
            or _find_otherwise(question),
        )
        for question in questions
    }
    found = tuple(answer for answer in answers.values() if answer)
    return FoundAnswers(found, tuple(name for name, answer in answers.items() if answer is None))


def _take_more_careful(
    question: Question, condition: FoundAnswer | None, other: FoundAnswer | None
) -> FoundAnswer | None:
    if condition is None or other is None:
        return condition or other
    order = list(question.answers)
    is_more_careful = order.index(str(other.value)) > order.index(str(condition.value))
    return other if is_more_careful else condition


def _find_by_condition(question: Question, person: Person) -> FoundAnswer | None:
    for answer, named in question.evidence.conditions.items():
        shared = tuple(name for name in person.conditions if name in named)
        if shared:
            return FoundAnswer(question.id, answer, Origin.CONDITION, conditions=shared)
    return None


def _find_by_history(question: Question, ready_lessons: Collection[str]) -> FoundAnswer | None:
    fitting = [pair for pair in question.evidence.ready.items() if pair[1] in ready_lessons]
    if not fitting:
        return None
    answer, lesson = fitting[-1]
    return FoundAnswer(question.id, answer, Origin.HISTORY, lesson_id=lesson)


def _find_by_result(
    course: Course, question: Question, rows: Collection[Result]
) -> FoundAnswer | None:
    """Take the newest row that answers: of the measure, or written under the question's own id."""
    measure = question.evidence.measure_id
    answering = [
        row
        for row in rows
        if row.measure_id == question.id
        or (row.measure_id == measure and is_read_in(course, row, question.lesson_id))
    ]
    if question.is_timed:
        best = find_best_hold(answering)
        return FoundAnswer(question.id, best.seconds, Origin.RESULT, best.day) if best else None
    for row in reversed(answering):
        answer = _list_meanings(question, row).get(str(row.value).strip())
        if answer:
            return FoundAnswer(question.id, answer, Origin.RESULT, row.day)
    return None


def _list_meanings(question: Question, row: Result) -> Mapping[str, str]:
    """Return what each word of a row answers: the measure's words, or the answers' own ids."""
    if row.measure_id == question.evidence.measure_id:
        return question.evidence.words
    return {name: name for name in question.answers}


def _find_otherwise(question: Question) -> FoundAnswer | None:
    answer = question.evidence.otherwise
    return FoundAnswer(question.id, answer, Origin.OTHERWISE) if answer else None
