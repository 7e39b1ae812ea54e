"""What rows may name: the people on record, and the words of the course."""

from collections import Counter
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from datetime import date
from functools import cached_property

from builder.course.course import Course
from builder.course.lesson import Lesson
from builder.course.placement import Question
from builder.course.vocabulary import Measure
from builder.records.person import Person


@dataclass(frozen=True)
class Known:
    """A course, the people, and the last day that can have been."""

    course: Course
    today: date
    people: Mapping[str, Person] = field(default_factory=dict)
    """By id as it is written."""
    unreadable_people: frozenset[str] = frozenset()
    """Ids of people whose own rows have faults; they exist, but nothing is known of them."""
    has_people: bool = True
    """False where the file of people can't be read at all, so that nobody can be looked up."""

    @cached_property
    def person_ids(self) -> dict[str, str]:
        """Return ids by their small letters, people with faulty rows too."""
        every = (*self.people, *sorted(self.unreadable_people))
        return {person_id.casefold(): person_id for person_id in every}

    @cached_property
    def ids_by_name(self) -> dict[str, str]:
        """Return ids by display name in small letters, names that several bear left out."""
        names = Counter(person.name.casefold() for person in self.people.values())
        return {
            person.name.casefold(): person.id
            for person in self.people.values()
            if names[person.name.casefold()] == 1
        }

    @cached_property
    def lesson_ids(self) -> dict[str, str]:
        """Return the present id of every lesson by its present and former ids."""
        former = {name: lesson.id for lesson in self.course.lessons for name in lesson.was}
        present = (*self.course.by_id, *sorted(self.course.unreadable))
        return former | {name: name for name in present}

    @cached_property
    def questions(self) -> dict[str, Question]:
        """Return the questions of the placement table by id."""
        placement = self.course.placement
        return {question.id: question for question in placement.questions} if placement else {}

    @cached_property
    def measures(self) -> Mapping[str, Measure]:
        """Return the measures of the course by id."""
        return self.course.vocabulary.measures

    def lessons_that_record(self, measure_id: str) -> tuple[str, ...]:
        """Return the ids of the lessons in which something can be measured or asked."""
        question = self.questions.get(measure_id)
        asked = question.lesson_id if question else ""
        return tuple(
            lesson.id
            for lesson in self.course.lessons
            if _records(lesson, measure_id) or lesson.id == asked
        )


def show_person(text: str) -> str:
    """Quote what should be an id; what could be a name is not said, for findings end up in logs.

    With a digit it is taken for an id (ours).
    """
    is_id = text.replace("-", "").isalnum() and any(map(str.isdigit, text))
    return f'"{text}"' if is_id else "a name"


def match_word(text: str, words: Iterable[str]) -> str | None:
    """Return the word that a text is, capitals aside."""
    return next((word for word in words if word.casefold() == text.casefold()), None)


def _records(lesson: Lesson, measure_id: str) -> bool:
    return any(measure.id == measure_id for measure in lesson.measures)
