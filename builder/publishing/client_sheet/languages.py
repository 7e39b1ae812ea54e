"""The language of a sheet: the person's own, as far as the tool and the course speak it."""

from collections.abc import Iterable
from dataclasses import dataclass

from markupsafe import Markup

from builder.course.course import Course
from builder.course.language_tag import root_of
from builder.course.lesson import Lesson
from builder.course.notice import Notice
from builder.language import Language, language_of, spoken_languages
from builder.records.person import Person
from builder.records.studio import StudioSettings


@dataclass(frozen=True)
class SpokenCourse:
    """A course in its own words, and in those of a person's language where there are some."""

    original: Course
    own: Course
    """The translation, or the original where there is none."""
    language: Language

    def find_course(self, lesson_id: str) -> Course:
        """Return the course in which a lesson stands in the nearest language."""
        return self.own if lesson_id in self.own.by_id else self.original

    def find_lesson(self, lesson_id: str) -> Lesson:
        """Return a lesson in the nearest language."""
        return self.find_course(lesson_id).by_id[lesson_id]

    def find_notice(self, notice_id: str) -> Notice:
        """Return a notice in the nearest language."""
        return next(notice for notice in self.own.notices if notice.id == notice_id)

    def find_notice_language(self, notice_id: str) -> str:
        """Return the language that a notice is in: a caution in another one is better than none."""
        first = next(notice for notice in self.original.notices if notice.id == notice_id)
        is_own = first.place != self.find_notice(notice_id).place
        return (self.own if is_own else self.original).settings.language

    @property
    def vocabulary_language(self) -> str:
        """Return the language of positions, props, conditions, measures and strands."""
        return self.own.settings.language

    def set_apart(self, words: str, tag: str = "") -> Markup:
        """Return words of the course; those in another language than the person's are marked so.

        Without a tag they are of the vocabulary.
        """
        tag = tag or self.vocabulary_language
        if self.is_own(tag):
            return Markup.escape(words)
        return Markup('<span lang="{}">{}</span>').format(tag, words)

    def set_all_apart(self, words: Iterable[str]) -> Markup:
        """Return words of the vocabulary, joined as a sentence does."""
        return Markup(self.language.all_of([*map(self.set_apart, words)]))  # noqa: S704  # escaped

    def is_own(self, tag: str) -> bool:
        """Tell whether words in a language are in the person's own."""
        return root_of(tag) == root_of(self.language.tag)


def speak_to(course: Course, studio: StudioSettings, person: Person) -> SpokenCourse:
    """Choose the language for a person: theirs, else the studio's, else the course's."""
    wished = (person.language, studio.language, course.settings.language)
    tag = next((tag for tag in wished if tag and root_of(tag) in spoken_languages()), "en-GB")
    found = next(
        (other for name, other in course.translations.items() if root_of(name) == root_of(tag)),
        course,
    )
    if root_of(tag) == root_of(course.settings.language):
        found = course
    return SpokenCourse(course, found, language_of(tag))
