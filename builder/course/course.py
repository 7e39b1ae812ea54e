"""The course as a whole: lessons in order, their graph and their notices."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date
from functools import cached_property

from builder.course.demand import Demand, measure_demand
from builder.course.graph import order_topologically
from builder.course.lesson import Lesson
from builder.course.limits import Limits
from builder.course.notice import Action, Notice
from builder.course.placement import Placement
from builder.course.reference_body import ReferenceBody
from builder.course.release import Ledger
from builder.course.trait import Trait, find_traits
from builder.course.trust import Trust
from builder.course.vocabulary import Vocabulary
from builder.findings import Place


@dataclass(frozen=True, slots=True)
class Studio:
    """Who publishes the course."""

    name: str
    contact: str


@dataclass(frozen=True, slots=True)
class Colours:
    """The studio's own colours as #rrggbb."""

    ink: str = "#1d2b2a"
    accent: str = "#1f5e5b"
    paper: str = "#fbfaf6"


@dataclass(frozen=True, slots=True)
class Scope:
    """What of a course is there in another language."""

    strands: tuple[str, ...]
    pages: tuple[str, ...] | None = None
    """Paths of pages from the content folder; None where every page is."""


@dataclass(frozen=True, slots=True)
class Settings:
    """What a course says of itself."""

    title: str
    summary: str
    language: str
    """BCP 47."""
    paper: str
    address: str
    """Where the site will stand; empty where nobody knows yet."""
    studio: Studio
    colours: Colours
    caution: str
    limits: Limits
    path: str
    """The course file, from the project's folder."""
    positions: Mapping[str, tuple[int, int]] = field(default_factory=dict)
    """Line and column of every value of the course file, by dotted key."""
    notices: tuple[str, ...] | None = None
    """Ids of the notices that must be there; None where the course keeps no list."""
    languages: Mapping[str, Scope] = field(default_factory=dict)
    """Other languages of the course by their BCP 47 tag."""
    papers: tuple[str, ...] | None = None
    """The sizes that a site prints cards on; None where its own settings say so alone."""
    trust: Trust = Trust.TRUSTED
    """How far the files of the content folder are believed, imported ones left out."""
    is_archival: bool = False
    """Whether cards and packs are written as PDF/A, to be kept for decades."""
    translated_from: str = ""
    """The language of the original where these are the words of another one; else empty."""

    @property
    def is_translation(self) -> bool:
        """Tell whether these are the words of another language than the original's."""
        return bool(self.translated_from)

    def at(self, key: str) -> Place:
        """Return the place of a key of the course file, or of the nearest key around it."""
        while key and key not in self.positions:
            key = key.rpartition(".")[0]
        return Place(self.path, *self.positions.get(key, (1, 1)))


@dataclass(frozen=True)
class Course:
    """Everything that was read, in one frozen value."""

    settings: Settings
    vocabulary: Vocabulary
    traits: Mapping[str, Trait]
    reference_bodies: tuple[ReferenceBody, ...]
    lessons: tuple[Lesson, ...]
    """In teaching order: strand, level, then what builds on what."""
    notices: tuple[Notice, ...]
    glossary: Mapping[str, str]
    """Term to its meaning, as the glossary page has them."""
    unreadable: frozenset[str]
    """Ids of lessons whose files have faults; they exist, but nothing is known of them."""
    unreadable_notices: frozenset[str] = frozenset()
    """The same for notices."""
    placement: Placement | None = None
    """Where people start; None where the course has no table."""
    ledger: Ledger | None = None
    """What was released; None where the course keeps no ledger."""
    translations: Mapping[str, "Course"] = field(default_factory=dict)
    """The same course in other languages, by their tag; it has none there."""
    day: date = field(default_factory=date.today)
    """The day on which it was read; reviews are reckoned up to it."""
    titles_beside: Mapping[str, str] | None = None
    """In an excerpt, the titles of lessons outside it that its texts name; else None."""

    @property
    def is_excerpt(self) -> bool:
        """Tell whether this is one lesson of a course with what its words are measured by."""
        return self.titles_beside is not None

    @cached_property
    def by_id(self) -> dict[str, Lesson]:
        """Return the lessons by id."""
        return {lesson.id: lesson for lesson in self.lessons}

    @cached_property
    def titles(self) -> dict[str, str]:
        """Lesson id to title."""
        own = {lesson.id: lesson.title for lesson in self.lessons}
        return {**self.titles_beside, **own} if self.titles_beside else own

    @cached_property
    def _by_strand(self) -> dict[str, list[Lesson]]:
        found: dict[str, list[Lesson]] = {}
        for lesson in self.lessons:
            found.setdefault(lesson.strand.id, []).append(lesson)
        return found

    @cached_property
    def _builders(self) -> dict[str, list[Lesson]]:
        """Lesson id to the lessons that build directly on it."""
        found: dict[str, list[Lesson]] = {}
        for lesson in self.lessons:
            for name in dict.fromkeys(lesson.builds_on):
                found.setdefault(name, []).append(lesson)
        return found

    @cached_property
    def graph(self) -> dict[str, tuple[str, ...]]:
        """Return what each lesson builds on, names of no lesson left out."""
        return {
            lesson.id: tuple(name for name in lesson.builds_on if name in self.by_id)
            for lesson in self.lessons
        }

    @cached_property
    def traits_by_lesson(self) -> dict[str, frozenset[str]]:
        """Return the traits of every lesson."""
        return {lesson.id: find_traits(lesson.drill) for lesson in self.lessons}

    @cached_property
    def demands(self) -> dict[str, Demand]:
        """Return the demand of every lesson."""
        return {lesson.id: measure_demand(lesson.drill) for lesson in self.lessons}

    @cached_property
    def teaching_order(self) -> tuple[str, ...]:
        """Return lesson ids so that each comes after what it builds on."""
        strands = list(self.vocabulary.strands)
        ranks = {
            lesson.id: (strands.index(lesson.strand.id), lesson.level) for lesson in self.lessons
        }
        return order_topologically(self.graph, ranks)

    def name_lesson(self, lesson_id: str) -> str:
        """Return a lesson's title, or its id where the course has none of that id."""
        lesson = self.by_id.get(lesson_id)
        return lesson.title if lesson else lesson_id

    def name_condition(self, condition_id: str) -> str:
        """Return a condition's title, or its id where the course has none of that id."""
        condition = self.vocabulary.conditions.get(condition_id)
        return condition.title if condition else condition_id

    def lessons_of(self, strand_id: str) -> tuple[Lesson, ...]:
        """Return the lessons of a strand by level."""
        return tuple(self._by_strand.get(strand_id, ()))

    def builds_into(self, lesson_id: str) -> tuple[Lesson, ...]:
        """Return the lessons that build directly on a lesson."""
        return tuple(self._builders.get(lesson_id, ()))

    def notices_for(self, lesson: Lesson, more: frozenset[str] = frozenset()) -> tuple[Notice, ...]:
        """Return the notices a lesson carries, strongest first, waived ones left out.

        More traits are those of where somebody does it instead; no waiver speaks of them.
        """
        traits = self.traits_by_lesson[lesson.id]
        waived = {waiver.notice_id for waiver in lesson.waivers}
        called = [
            notice
            for notice in self.notices
            if (notice.concerns(traits) and notice.id not in waived) or notice.traits & more
        ]
        actions = list(Action)
        return tuple(sorted(called, key=lambda notice: (actions.index(notice.action), notice.id)))
