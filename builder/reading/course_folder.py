"""A project's folder to a Course, with every problem of every file."""

from collections.abc import Collection, Mapping
from dataclasses import dataclass, field, replace
from datetime import date
from pathlib import Path

from builder import rules
from builder.course.course import Course
from builder.course.graph import order_topologically
from builder.course.lesson import Lesson
from builder.course.vocabulary import Vocabulary
from builder.errors import BuilderError
from builder.findings import Finding, sort_findings
from builder.reading.course_file import CourseFrame
from builder.reading.folder_reader import COURSE_FILE, FolderReader
from builder.reading.latest_day import find_latest_day
from builder.reading.pages import Page, read_glossary
from builder.reading.placement_file import PLACEMENT_FILE
from builder.reading.strays import find_strays
from builder.reading.translation.reader import read_translation
from builder.reading.translation.scope import find_scope_faults
from builder.reading.unchanged import list_states
from builder.reading.untrusted_files import find_unwanted_files
from builder.rules.excess import EXCESS
from builder.work.kept import Kept

_TRIES = 3
"""Of reading a course while somebody writes in it (ours)."""


@dataclass(frozen=True, slots=True)
class CourseReading:
    """What was read: the course as far as it is sound, and what is wrong with the rest."""

    course: Course | None
    """None where the course file itself can't be read."""
    pages: tuple[Page, ...]
    findings: tuple[Finding, ...]
    translated_pages: Mapping[str, tuple[Page, ...]] = field(default_factory=dict)
    """The pages in other languages, by their tag."""
    original: "CourseReading | None" = None
    """What this is a translation of; None where it is none."""
    lesson_keys: Mapping[str, str] = field(default_factory=dict)
    """Lesson id to a digest of all that the lesson was read from, where lessons are kept."""

    def list_languages(self) -> tuple[str, ...]:
        """Return the tags of the other languages that the course can be read in."""
        return tuple(self.course.translations) if self.course else ()

    def in_language(self, tag: str) -> "CourseReading":
        """Return the course in one of its other languages; findings stay with the original."""
        translated = self.course.translations.get(tag) if self.course else None
        return CourseReading(translated, self.translated_pages.get(tag, ()), (), original=self)


def read_teachable(root: Path) -> Course:
    """Read the course that people are planned by; BuilderError without its file or its table.

    Where people start, and whom a strand lets wait, would be lost with the table in silence.
    """
    reading = read_course(root)
    if reading.course is None:
        raise BuilderError("the course can't be read", "see: tempoleaf check")
    table = f"content/{PLACEMENT_FILE}"
    if reading.course.placement is None and (root / table).exists():
        raise BuilderError(
            f'"{table}" can\'t be read, and where people start is lost with it',
            "mend what `tempoleaf check` finds in it",
        )
    return reading.course


def read_course(
    root: Path, content: str = "content", today: date | None = None, kept: Kept | None = None
) -> CourseReading:
    """Read the course of a project's folder; lessons that are kept aren't read again.

    It is all of one moment: where somebody writes meanwhile it is read again, and BuilderError
    where they don't come to an end.
    """
    folder = root / content
    _refuse_no_course(folder / COURSE_FILE)
    for _ in range(_TRIES):
        before = list_states(folder)
        reading = _read_once(root, folder, today, kept)
        if list_states(folder) == before:
            return reading
    raise BuilderError(
        f'files in "{folder}" change again and again while they are read',
        "let whatever writes there come to an end, and run this again",
    )


def _read_once(root: Path, folder: Path, today: date | None, kept: Kept | None) -> CourseReading:
    latest = today or find_latest_day()
    strays = find_strays(root, folder)
    if any(finding.rule in EXCESS for finding in strays):
        return CourseReading(None, (), sort_findings(strays))
    reader = FolderReader(root, folder, latest, list(strays), kept=kept)
    frame = reader.read_frame()
    pages = tuple(reader.read_pages())
    if frame is None:
        return CourseReading(None, pages, sort_findings(reader.findings))
    reader.findings += find_unwanted_files(root, folder, frame.settings.trust)
    notices, unreadable_notices = reader.read_notices(frame)
    lessons, unreadable = reader.read_lessons(frame)
    known = {lesson.id for lesson in lessons} | unreadable
    if known:
        reader.refuse_references(known)
    else:
        reader.findings.append(_tell_no_lessons(frame))
    course = Course(
        settings=frame.settings,
        vocabulary=frame.vocabulary,
        traits=frame.traits,
        reference_bodies=frame.reference_bodies,
        lessons=order_lessons(lessons, frame.vocabulary),
        notices=tuple(notices),
        glossary=read_glossary(pages),
        unreadable=frozenset(unreadable),
        unreadable_notices=frozenset(unreadable_notices),
        placement=reader.read_placement(frame, lessons, unreadable),
        ledger=reader.read_ledger(),
        day=today or date.today(),
    )
    reading = _add_translations(reader, course, pages)
    if kept is None or reader.shelf is None:
        return reading
    kept.save()
    return replace(reading, lesson_keys=reader.shelf.keys)


def _add_translations(
    reader: FolderReader, course: Course, pages: tuple[Page, ...]
) -> CourseReading:
    """Read the course's other languages, each beside the original."""
    reader.findings += find_scope_faults(course, pages)
    readings = {
        language: read_translation(
            (reader.root, reader.folder), course, pages, language, reader.today
        )
        for language in course.settings.languages
    }
    findings = [finding for reading in readings.values() for finding in reading.findings]
    translations = {
        language: reading.course for language, reading in readings.items() if reading.course
    }
    return CourseReading(
        replace(course, translations=translations),
        pages,
        sort_findings((*reader.findings, *findings)),
        {language: reading.pages for language, reading in readings.items()},
    )


def _refuse_no_course(path: Path) -> None:
    """Raise BuilderError where no course file can be found."""
    try:
        found = path.is_file()
    except OSError as error:
        cure = "check that you may read it"
        raise BuilderError(f'"{path}" can\'t be opened ({error.strerror})', cure) from error
    if not found:
        raise BuilderError(
            f'there is no course here: "{path}" is missing',
            "run this in a course's folder, or make one with: tempoleaf new DIR",
        )


def _tell_no_lessons(frame: CourseFrame) -> Finding:
    strand = next(iter(frame.vocabulary.strands))
    return rules.VALUE_OUT_OF_RANGE.at(
        frame.settings.at("strands"),
        "the course has no lesson",
        f"write the first one under lessons/{strand}/",
    )


def order_lessons(lessons: Collection[Lesson], vocabulary: Vocabulary) -> tuple[Lesson, ...]:
    """Order lessons by strand and level, alternatives after what they build on."""
    strands = list(vocabulary.strands)
    ranks = {lesson.id: (strands.index(lesson.strand.id), lesson.level) for lesson in lessons}
    graph = {
        lesson.id: tuple(name for name in lesson.builds_on if name in ranks) for lesson in lessons
    }
    turn = {name: index for index, name in enumerate(order_topologically(graph, ranks))}
    return tuple(sorted(lessons, key=lambda lesson: (ranks[lesson.id], turn[lesson.id])))
