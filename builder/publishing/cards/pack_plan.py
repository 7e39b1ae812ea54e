"""What goes into which pack."""

from collections.abc import Sequence
from dataclasses import dataclass, replace

from builder.course.course import Course, Settings
from builder.course.lesson import Lesson
from builder.language import language_of
from builder.sums.paper import Paper

WHOLE_COURSE = "whole-course"


@dataclass(frozen=True, slots=True)
class Entry:
    """One lesson in a pack's contents."""

    id: str
    title: str
    level: int
    page: int = 0


@dataclass(frozen=True, slots=True)
class Chapter:
    """The lessons of one strand in a pack."""

    title: str
    entries: tuple[Entry, ...]


@dataclass(frozen=True, slots=True)
class Pack:
    """What goes into one pack."""

    name: str
    """The strand's id, or WHOLE_COURSE."""
    title: str
    over_title: str
    summary: str
    chapters: tuple[Chapter, ...]
    paper: Paper
    language: str
    studio: str
    caution: str
    accent: str
    is_archival: bool

    def list_lessons(self) -> tuple[str, ...]:
        """Return the ids of its lessons in order."""
        return tuple(entry.id for chapter in self.chapters for entry in chapter.entries)

    def number_pages(self, leaves: Sequence[int], before: int) -> "Pack":
        """Give each lesson the number of its first page, behind so many pages before all cards.

        ``leaves`` has the pages of each card in turn.
        """
        page, counts, chapters = before + 1, iter(leaves), []
        for chapter in self.chapters:
            entries = []
            for entry in chapter.entries:
                entries.append(replace(entry, page=page))
                page += next(counts)
            chapters.append(replace(chapter, entries=tuple(entries)))
        return replace(self, chapters=tuple(chapters))


def plan_packs(course: Course, lessons: Sequence[Lesson], paper: Paper) -> tuple[Pack, ...]:
    """Plan a pack for each strand and one for the whole course."""
    chapters = {
        strand.id: Chapter(
            strand.title,
            tuple(_enter(lesson) for lesson in lessons if lesson.strand.id == strand.id),
        )
        for strand in course.vocabulary.strands.values()
    }
    filled = {name: chapter for name, chapter in chapters.items() if chapter.entries}
    settings = course.settings
    strands = course.vocabulary.strands
    packs = [
        _plan(course, paper, name, (chapter,), (strands[name].title, strands[name].summary))
        for name, chapter in filled.items()
    ]
    whole = (settings.title, settings.summary)
    return (*packs, _plan(course, paper, WHOLE_COURSE, tuple(filled.values()), whole))


def _enter(lesson: Lesson) -> Entry:
    return Entry(lesson.id, lesson.title, lesson.level)


def _word_contents(settings: Settings) -> str:
    return language_of(settings.language).say("Contents")


def _plan(
    course: Course, paper: Paper, name: str, chapters: tuple[Chapter, ...], words: tuple[str, str]
) -> Pack:
    settings = course.settings
    title, summary = words
    return Pack(
        name=name,
        title=title,
        over_title=_word_contents(settings) if name == WHOLE_COURSE else settings.title,
        summary=summary,
        chapters=chapters,
        paper=paper,
        language=settings.language,
        studio=", ".join(part for part in (settings.studio.name, settings.studio.contact) if part),
        caution=settings.caution,
        accent=settings.colours.accent,
        is_archival=settings.is_archival,
    )
