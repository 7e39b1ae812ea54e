"""The chapters of the book, in the order in which they are read: safety before any lesson."""

import re
import unicodedata
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from re import Match

from builder.course.course import Course
from builder.course.notice import Action, Notice
from builder.course.vocabulary import Strand
from builder.language import Language, language_of
from builder.publishing.book.places import (
    CONTENTS,
    COVER,
    GLOSSARY,
    SAFETY,
    TITLE,
    find_lesson,
    lesson_file,
    strand_file,
)
from builder.publishing.book.templates import render
from builder.publishing.views.inline import InlineRenderer
from builder.publishing.views.lesson_in_words import view_notice
from builder.publishing.views.long_text import render_long
from builder.publishing.views.wording import word_review, word_source

_LINK = re.compile(r'(<a\b[^>]*?) href="([^"]*)"')
_TO_THE_WEB = ("http://", "https://", "mailto:")


@dataclass(frozen=True, slots=True)
class Chapter:
    """One file of the book."""

    file: str
    title: str
    text: str
    """XHTML."""
    parts: tuple["Chapter", ...] = ()
    """What the contents show below it."""

    @property
    def has_drawing(self) -> bool:
        """Tell whether there is SVG in it, which the package must say."""
        return "<svg" in self.text


def make_chapters(course: Course, lessons: Mapping[str, str]) -> tuple[Chapter, ...]:
    """Return every chapter but the contents, which need all of them.

    ``lessons`` are the chapters of lessons as written, by their ids.
    """
    language = language_of(course.settings.language)
    strands = [one for one in course.vocabulary.strands.values() if course.lessons_of(one.id)]
    chapters = (
        _write_cover(course, language),
        _write_title(course, language),
        _write_safety(course, language),
        *(_write_strand(course, language, strand, lessons) for strand in strands),
        *_write_glossary(course, language),
    )
    files = {CONTENTS, *(chapter.file for chapter in flatten(chapters))}
    return tuple(_drop_strange_links(chapter, files) for chapter in chapters)


def flatten(chapters: Iterable[Chapter]) -> tuple[Chapter, ...]:
    """Return chapters and their parts in reading order."""
    return tuple(one for chapter in chapters for one in (chapter, *flatten(chapter.parts)))


def _write_cover(course: Course, language: Language) -> Chapter:
    title = language.say("Cover")
    return Chapter(COVER, title, render("cover.xhtml", language, title=title, course=course))


def _write_title(course: Course, language: Language) -> Chapter:
    title = course.settings.title
    return Chapter(TITLE, title, render("title.xhtml", language, title=title, course=course))


def _write_safety(course: Course, language: Language) -> Chapter:
    title = language.say("Safety first")
    actions = list(Action)
    notices = sorted(course.notices, key=lambda n: (actions.index(n.action), n.title))
    views = [_view_notice(course, language, notice) for notice in notices]
    text = render("safety.xhtml", language, title=title, course=course, notices=views)
    return Chapter(SAFETY, title, text)


def _view_notice(course: Course, language: Language, notice: Notice) -> dict[str, object]:
    titles = course.titles
    conditions = course.vocabulary.conditions
    known = [conditions[name].title for name in notice.conditions if name in conditions]
    return {
        "view": view_notice(language, InlineRenderer(titles, find_lesson), notice),
        "whom": language.all_of(known) or language.say("everybody"),
        "long": render_long(notice.long, titles, find_lesson),
        "sources_language": course.settings.translated_from,
        "sources": [word_source(language, source) for source in notice.sources],
        "reviewed": word_review(language, notice.reviewed),
    }


def _write_strand(
    course: Course, language: Language, strand: Strand, written: Mapping[str, str]
) -> Chapter:
    lessons = course.lessons_of(strand.id)
    inline = InlineRenderer(course.titles, find_lesson)
    text = render(
        "strand.xhtml",
        language,
        title=strand.title,
        strand=strand,
        lessons=[(lesson, inline.render(lesson.summary)) for lesson in lessons],
        files=lesson_file,
        caution=course.settings.caution,
    )
    parts = tuple(
        Chapter(lesson_file(lesson.id), lesson.title, written[lesson.id]) for lesson in lessons
    )
    return Chapter(strand_file(strand.id), strand.title, text, parts)


def _write_glossary(course: Course, language: Language) -> tuple[Chapter, ...]:
    if not course.glossary:
        return ()
    title = language.say("Glossary")
    inline = InlineRenderer(course.titles, find_lesson)
    terms = [
        (inline.render(term), inline.render(course.glossary[term]))
        for term in sorted(course.glossary, key=_fold)
    ]
    text = render("glossary.xhtml", language, title=title, terms=terms)
    return (Chapter(GLOSSARY, title, text),)


def _fold(term: str) -> tuple[str, str]:
    """Return what a term is sorted by: its bare letters, so that é stands with e."""
    bare = unicodedata.normalize("NFD", term.casefold())
    return "".join(sign for sign in bare if not unicodedata.combining(sign)), term


def _drop_strange_links(chapter: Chapter, files: set[str]) -> Chapter:
    """Leave the words of links to pages that only the website has."""

    def keep(match: Match[str]) -> str:
        file = match[2].partition("#")[0]
        return match[0] if file in files or match[2].startswith(_TO_THE_WEB) else match[1]

    parts = tuple(_drop_strange_links(part, files) for part in chapter.parts)
    return Chapter(chapter.file, chapter.title, _LINK.sub(keep, chapter.text), parts)
