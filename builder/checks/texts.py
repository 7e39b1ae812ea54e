"""The texts of a course that somebody reads, each with its place."""

import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from builder.course.course import Course
from builder.course.lesson import Lesson, Passage
from builder.course.notice import Notice
from builder.findings import Place

_LESSON_NAME = re.compile(r"\[\[([^\[\]]+)\]\]")
_NEW_BLOCK = re.compile(r"[ \t]*(?:[-*+]|[0-9]+[.)])[ \t]+")


_SILENT = re.compile("[\u00ad\u200c\u200d]|\\*\\*|__")
"""What parts a word for the machine and not for the eye: soft hyphens, joiners, bold."""


@dataclass(frozen=True, slots=True)
class Text:
    """One text of an author, and where it stands."""

    place: Place
    words: str


def doing_texts(lesson: Lesson) -> Iterator[Text]:
    """Yield what tells a client to do something: title, summary, set up, steps and cues."""
    words = lesson.words
    yield _text(lesson.at("title"), lesson.title)
    yield _text(lesson.at("summary"), lesson.summary)
    yield from passage_texts(lesson, *words.set_up, *words.steps)
    yield from cue_texts(lesson)


def client_texts(lesson: Lesson) -> Iterator[Text]:
    """Yield every text of a lesson that a client reads."""
    words = lesson.words
    yield from doing_texts(lesson)
    yield from passage_texts(lesson, *words.if_hard)
    for key in ("watch_for", "ready_when", "stop_if"):
        for index, text in enumerate(getattr(words, key)):
            yield _text(lesson.at(f"{key}.{index}"), text)


def lesson_texts(lesson: Lesson) -> Iterator[Text]:
    """Yield every text of a lesson, coach notes with it."""
    yield from client_texts(lesson)
    yield from passage_texts(lesson, *lesson.words.coach_notes)


def cue_texts(lesson: Lesson) -> Iterator[Text]:
    """Yield the cues of a lesson."""
    if lesson.words.cues:
        yield _text(lesson.at("cues.inhale"), lesson.words.cues.inhale)
        yield _text(lesson.at("cues.exhale"), lesson.words.cues.exhale)


def notice_texts(notice: Notice) -> Iterator[Text]:
    """Yield what a notice says below its title, the long text block by block."""
    for key, words in (("short", notice.short), ("adapt", notice.adapt)):
        if words:
            yield _text(notice.at(key), words)
    yield from _split_blocks(notice.long, notice.place.path, notice.long_line)


def course_texts(course: Course) -> Iterator[Text]:
    """Yield every text of a course that a reader sees: course file, lessons, notices, glossary."""
    if not course.is_excerpt:
        yield from _opening_texts(course)
    for lesson in course.lessons:
        yield from lesson_texts(lesson)
    if not course.is_excerpt:
        yield from _closing_texts(course)


def _opening_texts(course: Course) -> Iterator[Text]:
    settings = course.settings
    for key in ("title", "summary", "caution"):
        yield _text(settings.at(key), getattr(settings, key))
    for index, strand in enumerate(course.vocabulary.strands.values()):
        for key in ("title", "summary"):
            yield _text(settings.at(f"strands.{index}.{key}"), getattr(strand, key))


def _closing_texts(course: Course) -> Iterator[Text]:
    for notice in course.notices:
        yield _text(notice.at("title"), notice.title)
        yield from notice_texts(notice)
    glossary = Place(f"{course.settings.path.rpartition('/')[0]}/glossary.md".lstrip("/"))
    for term, meaning in course.glossary.items():
        yield _text(glossary, f"{term}: {meaning}")


def passage_texts(lesson: Lesson, *passages: Passage) -> Iterator[Text]:
    """Yield passages of a lesson's body, empty ones left out."""
    for passage in passages:
        if passage.text:
            yield _text(lesson.at_line(passage.line), passage.text)


def write_out(course: Course, texts: Iterable[Text]) -> Iterator[Text]:
    """Replace names of lessons by their titles, as pages and cards do."""

    def title(found: re.Match[str]) -> str:
        return course.titles.get(found[1], found[1])

    for text in texts:
        yield _text(text.place, _LESSON_NAME.sub(title, text.words))


def find_named_lessons(lesson: Lesson) -> frozenset[str]:
    """Return the names in double brackets in a lesson's texts."""
    return frozenset(
        name for text in lesson_texts(lesson) for name in _LESSON_NAME.findall(text.words)
    )


def _split_blocks(markdown: str, path: str, first_line: int) -> Iterator[Text]:
    """Yield the paragraphs and list items of a Markdown text."""
    block: list[str] = []
    start = first_line
    for number, line in enumerate((*markdown.split("\n"), ""), first_line):
        if not line.strip() or _NEW_BLOCK.match(line):
            if block:
                yield _text(Place(path, start), " ".join(block))
            block, start = [], number
        if line.strip():
            start = start if block else number
            block.append(line.strip())


def _text(place: Place, words: str) -> Text:
    """Make a text as people read it."""
    return Text(place, _SILENT.sub("", words))
