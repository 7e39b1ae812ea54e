"""The texts of a course that somebody reads, each with its place."""

from collections.abc import Iterator
from dataclasses import dataclass

from builder.checks.words_text import list_notice_sayings
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
    for key in ("title", "summary", "caution"):
        yield Text(settings.at(key), getattr(settings, key))
    for index, strand in enumerate(course.vocabulary.strands.values()):
        for key in ("title", "summary"):
            yield Text(settings.at(f"strands.{index}.{key}"), getattr(strand, key))
    for lesson in course.lessons:
        yield from lesson_texts(lesson)
    for notice in course.notices:
        yield Text(notice.at("title"), notice.title)
        yield from (Text(said.place, said.text) for said in list_notice_sayings(notice))
    glossary = Place(f"{settings.path.rpartition('/')[0]}/glossary.md".lstrip("/"))
    for term, meaning in course.glossary.items():
        yield Text(glossary, f"{term}: {meaning}")


def passage_texts(lesson: Lesson, *passages: Passage) -> Iterator[Text]:
    """Yield passages of a lesson's body, empty ones left out."""
    for passage in passages:
        if passage.text:
            yield Text(lesson.at_line(passage.line), passage.text)
