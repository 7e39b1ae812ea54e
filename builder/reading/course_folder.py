"""A project's folder to a Course, with every problem of every file."""

from collections.abc import Collection, Iterator, Mapping
from dataclasses import dataclass, field, replace
from datetime import date, datetime, timedelta, timezone
from pathlib import Path

from builder import rules
from builder.course.course import Course
from builder.course.graph import order_topologically
from builder.course.lesson import Lesson
from builder.course.notice import Notice
from builder.course.placement import Placement
from builder.course.release import Ledger
from builder.course.vocabulary import Vocabulary
from builder.errors import BuilderError
from builder.findings import Finding, Place, sort_findings
from builder.reading.course_file import CourseFrame, make_frame
from builder.reading.file_names import find_id_fault, find_page_fault
from builder.reading.known import HeaderCheck
from builder.reading.lesson_file import read_lesson
from builder.reading.notice_file import read_notice
from builder.reading.pages import Page, read_glossary, read_page
from builder.reading.placement_file import PLACEMENT_FILE, read_placement
from builder.reading.references import find_foreign_parts, find_wrong_references
from builder.reading.releases_file import LEDGER_FILE, read_ledger
from builder.reading.schema import CourseHeader
from builder.reading.strays import find_strays
from builder.reading.text_file import TextFile, read_text, split_header
from builder.reading.translation.names import split_language
from builder.reading.translation.reader import read_translation
from builder.reading.validation import read_validated

COURSE_FILE = "course.yml"
_EASTERNMOST = timezone(timedelta(hours=14))
"""Where each day begins first."""


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

    def in_language(self, tag: str) -> "CourseReading":
        """Return the course in one of its other languages; findings stay with the original."""
        translated = self.course.translations.get(tag) if self.course else None
        return CourseReading(translated, self.translated_pages.get(tag, ()), (), original=self)


def read_course(root: Path, content: str = "content", today: date | None = None) -> CourseReading:
    """Read the course of a project's folder."""
    folder = root / content
    _refuse_no_course(folder / COURSE_FILE)
    latest = today or datetime.now(_EASTERNMOST).date()
    reader = _Reader(root, folder, latest, list(find_strays(root, folder)))
    frame = reader.read_frame()
    pages = tuple(reader.read_pages())
    if frame is None:
        return CourseReading(None, pages, sort_findings(reader.findings))
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
    return _add_translations(reader, course, pages)


def _add_translations(reader: "_Reader", course: Course, pages: tuple[Page, ...]) -> CourseReading:
    """Read the course's other languages, each beside the original."""
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


@dataclass(slots=True)
class _Reader:
    root: Path
    folder: Path
    today: date
    """The day that has begun somewhere: nobody can have reviewed anything after it."""
    findings: list[Finding]
    texts: dict[str, str] = field(default_factory=dict)
    """What was read, by path."""
    languages: tuple[str, ...] = ()
    """Of translations, which lie beside their originals."""

    def read_frame(self) -> CourseFrame | None:
        path = self.folder / COURSE_FILE
        text, findings = read_text(self.root, path)
        self.findings += findings
        if text is None:
            return None
        name = path.relative_to(self.root).as_posix()
        tree, header, findings = read_validated(text, name, CourseHeader)
        self.findings += findings
        if tree is None or header is None:
            return None
        check = HeaderCheck(tree, name, self.today)
        frame = make_frame(check, header)
        self.findings += check.findings
        self.languages = tuple(frame.settings.languages)
        return frame

    def list_originals(self, folder: str) -> Iterator[Path]:
        """Yield the Markdown files of a folder; report translations of nothing."""
        for path in sorted((self.folder / folder).rglob("*.md")):
            original, language = split_language(path.as_posix(), self.languages)
            if not language:
                yield path
            elif not Path(original).is_file():
                fact = f'nothing is translated here: there is no "{Path(original).name}"'
                place = Place(path.relative_to(self.root).as_posix())
                cure = "give the file its original's name, with the language before the ending"
                self.findings.append(rules.FILE_MISPLACED.at(place, fact, cure))

    def read_pages(self) -> Iterator[Page]:
        for path in self.list_originals(""):
            name = path.relative_to(self.root).as_posix()
            within = path.relative_to(self.folder).as_posix()
            if within.startswith(("lessons/", "notices/")) or not self._is_well_named(
                find_page_fault(name, within)
            ):
                continue
            text, findings = read_text(self.root, path)
            self.findings += findings
            if text is None:
                continue
            self.texts[name] = text
            self.findings += find_foreign_parts(text, name)
            file: TextFile | None = TextFile(name, "", 1, text, 1)
            if text.startswith("---\n"):
                file, findings = split_header(text, name)
                self.findings += findings
            if file:
                page, findings = read_page(file, within)
                self.findings += findings
                yield from [page] if page else []

    def read_notices(self, frame: CourseFrame) -> tuple[list[Notice], set[str]]:
        notices: list[Notice] = []
        unreadable: set[str] = set()
        for path in self.list_originals("notices"):
            file = self._open(path)
            conditions = frame.vocabulary.conditions
            notice, findings = (
                read_notice(file, frame.traits, conditions, self.today) if file else (None, [])
            )
            self.findings += findings
            if file:
                self.findings += find_foreign_parts(self.texts[file.path], file.path)
            if notice is None:
                unreadable.add(path.stem)
            else:
                notices.append(notice)
        return notices, unreadable

    def read_lessons(self, frame: CourseFrame) -> tuple[list[Lesson], set[str]]:
        lessons: list[Lesson] = []
        seen: dict[str, str] = {}
        unreadable: set[str] = set()
        for path in self.list_originals("lessons"):
            file = self._open(path)
            lesson, findings = (
                read_lesson(file, frame.vocabulary, frame.traits, self.today)
                if file
                else (None, [])
            )
            self.findings += findings
            if lesson is None:
                unreadable.add(path.stem)
            elif self._is_new(path, seen):
                lessons.append(lesson)
        return lessons, unreadable - set(seen)

    def read_placement(
        self, frame: CourseFrame, lessons: Collection[Lesson], unreadable: Collection[str]
    ) -> Placement | None:
        """Read where people start; a lesson that can't be read may lie in any strand."""
        name, text = self._read_extra(PLACEMENT_FILE)
        if text is None:
            return None
        strands = {
            strand: frozenset(unreadable)
            | {lesson.id for lesson in lessons if lesson.strand.id == strand}
            for strand in frame.vocabulary.strands
        }
        table, findings = read_placement(text, name, strands, self.today)
        self.findings += findings
        return table

    def read_ledger(self) -> Ledger | None:
        """Read what was released, where the course keeps a ledger."""
        name, text = self._read_extra(LEDGER_FILE)
        if text is None:
            return None
        ledger, findings = read_ledger(text, name, self.today)
        self.findings += findings
        return ledger

    def refuse_references(self, lessons: Collection[str]) -> None:
        """Note what texts point to and isn't there, once all lessons are known."""
        for path, text in self.texts.items():
            self.findings += find_wrong_references(text, path, lessons)

    def _read_extra(self, file: str) -> tuple[str, str | None]:
        """Read a file that a course may have; no text where it is missing or unreadable."""
        path = self.folder / file
        name = path.relative_to(self.root).as_posix()
        if not path.is_file():
            return name, None
        text, findings = read_text(self.root, path)
        self.findings += findings
        return name, text

    def _is_new(self, path: Path, seen: dict[str, str]) -> bool:
        name = path.relative_to(self.root).as_posix()
        first = seen.setdefault(path.stem, name)
        if first != name:
            fact = f'"{path.stem}" is already the id of {first}'
            self.findings.append(rules.ID_DOUBLED.at(Place(name), fact, "rename one of the files"))
        return first == name

    def _open(self, path: Path) -> TextFile | None:
        name = path.relative_to(self.root).as_posix()
        if not self._is_well_named(find_id_fault(name)):
            return None
        text, findings = read_text(self.root, path)
        self.findings += findings
        if text is None:
            return None
        self.texts[name] = text
        file, findings = split_header(text, name)
        self.findings += findings
        return file

    def _is_well_named(self, fault: Finding | None) -> bool:
        self.findings += [fault] if fault else []
        return fault is None
