"""The texts of a course that somebody reads, each with its place."""

from collections.abc import Iterator
from dataclasses import dataclass

from builder.course.course import Course
from builder.course.lesson import Lesson, Passage
from builder.findings import Place


@dataclass(frozen=True, slots=True)
class Text:
    """One text of an author, and where it stands."""

    place: Place
    words: str


def doing_texts(lesson: Lesson) -> Iterator[Text]:
    """Yield what tells a client to do something: title, summary, set up, steps and cues."""
    words = lesson.words
    yield Text(lesson.at("title"), lesson.title)
    yield Text(lesson.at("summary"), lesson.summary)
    yield from passage_texts(lesson, *words.set_up, *words.steps)
    if words.cues:
        yield Text(lesson.at("cues.inhale"), words.cues.inhale)
        yield Text(lesson.at("cues.exhale"), words.cues.exhale)


def client_texts(lesson: Lesson) -> Iterator[Text]:
    """Yield every text of a lesson that a client reads."""
    words = lesson.words
    yield from doing_texts(lesson)
    yield from passage_texts(lesson, *words.if_hard)
    for key in ("watch_for", "ready_when", "stop_if"):
        for index, text in enumerate(getattr(words, key)):
            yield Text(lesson.at(f"{key}.{index}"), text)


def lesson_texts(lesson: Lesson) -> Iterator[Text]:
    """Yield every text of a lesson, coach notes with it."""
    yield from client_texts(lesson)
    yield from passage_texts(lesson, *lesson.words.coach_notes)


def course_texts(course: Course) -> Iterator[Text]:
    """Yield every text of a course that a reader sees: course file, lessons, notices, glossary."""
    settings = course.settings
    for words in (settings.title, settings.summary, settings.caution):
        yield Text(Place(settings.path), words)
    for strand in course.vocabulary.strands.values():
        yield from (Text(Place(settings.path), words) for words in (strand.title, strand.summary))
    for lesson in course.lessons:
        yield from lesson_texts(lesson)
    for notice in course.notices:
        for key in ("title", "short", "adapt"):
            yield Text(notice.at(key), getattr(notice, key))
        yield from (Text(notice.place, block) for block in notice.long.split("\n"))
    glossary = Place(f"{settings.path.rpartition('/')[0]}/glossary.md".lstrip("/"))
    for term, meaning in course.glossary.items():
        yield Text(glossary, f"{term}: {meaning}")


def passage_texts(lesson: Lesson, *passages: Passage) -> Iterator[Text]:
    """Yield passages of a lesson's body, empty ones left out."""
    for passage in passages:
        if passage.text:
            yield Text(lesson.at_line(passage.line), passage.text)
