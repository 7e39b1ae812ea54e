"""Every file of a project's folder, read with every problem of it."""

from collections.abc import Collection, Iterator
from dataclasses import dataclass, field
from datetime import date
from functools import partial
from pathlib import Path

from builder import rules
from builder.course.lesson import Lesson
from builder.course.notice import Notice
from builder.course.placement import Placement
from builder.course.release import Ledger
from builder.findings import Finding, Place
from builder.reading.course_file import CourseFrame, make_frame
from builder.reading.evidence import name_for_placement
from builder.reading.file_names import find_page_fault
from builder.reading.kept_lessons import LessonShelf
from builder.reading.known import HeaderCheck
from builder.reading.lesson_file import read_lesson
from builder.reading.notice_file import read_notice
from builder.reading.opened_files import OpenedFiles
from builder.reading.pages import Page, read_page_text
from builder.reading.placement_file import PLACEMENT_FILE, read_placement
from builder.reading.references import find_foreign_parts, find_wrong_references
from builder.reading.releases_file import LEDGER_FILE, read_ledger
from builder.reading.schema import CourseHeader
from builder.reading.text_file import TextFile
from builder.reading.translation.names import split_language
from builder.reading.validation import read_validated
from builder.work.kept import Kept, make_key
from builder.work.share import share
from builder.work.tool import digest_tool

COURSE_FILE = "course.yml"


@dataclass(slots=True)
class FolderReader:
    """Reads file by file, and gathers what is wrong."""

    root: Path
    folder: Path
    today: date
    """The day that has begun somewhere: nobody can have reviewed anything after it."""
    findings: list[Finding]
    languages: tuple[str, ...] = ()
    """Of translations, which lie beside their originals."""
    kept: Kept | None = None
    """Lessons of earlier runs; None where each is read anew."""
    shelf: LessonShelf | None = None
    """The same, once the course file is read."""
    names: dict[str, tuple[str, ...]] = field(default_factory=dict)
    """Path to the lessons that a kept lesson's file names; nothing else in it can be wrong."""
    files: OpenedFiles = field(init=False)

    def __post_init__(self) -> None:
        self.files = OpenedFiles(self.root, self.folder, self.findings)

    def read_frame(self) -> CourseFrame | None:
        """Read the course file; None where it is unsound."""
        name, text = self.files.read_extra(self.folder / COURSE_FILE)
        if text is None:
            return None
        tree, header, findings = read_validated(text, name, CourseHeader)
        self.findings += findings
        if tree is None or header is None:
            return None
        check = HeaderCheck(tree, name, self.today)
        frame = make_frame(check, header)
        self.findings += check.findings
        self.files.trust = frame.settings.trust
        if not self.files.is_safe(self.folder / COURSE_FILE, text):
            return None
        self.languages = tuple(frame.settings.languages)
        if self.kept:
            key = make_key(digest_tool(), name, text)
            self.shelf = LessonShelf(self.kept, key, self.today)
        return frame

    def read_pages(self) -> Iterator[Page]:
        """Yield the ordinary pages that can be read."""
        for path in _list_originals(self, ""):
            name = path.relative_to(self.root).as_posix()
            within = path.relative_to(self.folder).as_posix()
            if within.startswith(("lessons/", "notices/")) or not self.files.is_well_named(
                find_page_fault(name, within)
            ):
                continue
            text = self.files.open(path)
            if text is None:
                continue
            self.files.texts[name] = text
            self.findings += find_foreign_parts(text, name)
            page, findings = read_page_text(text, name, within)
            self.findings += findings
            yield from [page] if page else []

    def read_notices(self, frame: CourseFrame) -> tuple[list[Notice], set[str]]:
        """Read the notices; return those that are sound, and the ids of the others."""
        notices: list[Notice] = []
        unreadable: set[str] = set()
        for path in _list_originals(self, "notices"):
            file = self.files.split(*self.files.read(path))
            notice, findings = (
                read_notice(file, frame.traits, frame.vocabulary, self.today)
                if file
                else (None, [])
            )
            self.findings += findings
            if file:
                self.findings += find_foreign_parts(self.files.texts[file.path], file.path)
            if notice is None:
                unreadable.add(path.stem)
            else:
                notices.append(notice)
        return notices, unreadable

    def read_lessons(self, frame: CourseFrame) -> tuple[list[Lesson], set[str]]:
        """Read the lessons; return those that are sound, and the ids of the others."""
        lessons: list[Lesson] = []
        seen: dict[str, str] = {}
        unreadable: set[str] = set()
        for path, lesson in self._read_lesson_files(frame):
            if lesson is None:
                unreadable.add(path.stem)
            elif self._is_new(path, seen):
                lessons.append(lesson)
        return lessons, unreadable - set(seen)

    def read_placement(
        self, frame: CourseFrame, lessons: Collection[Lesson], unreadable: Collection[str]
    ) -> Placement | None:
        """Read where people start; a lesson that can't be read may lie in any strand."""
        name, text = self.files.read_extra(self.folder / PLACEMENT_FILE)
        if text is None:
            return None
        names = name_for_placement(frame.vocabulary, lessons, unreadable, frame.traits)
        table, findings = read_placement(text, name, names, self.today)
        self.findings += findings
        return table

    def read_ledger(self) -> Ledger | None:
        """Read what was released, where the course keeps a ledger."""
        name, text = self.files.read_extra(self.folder / LEDGER_FILE)
        if text is None:
            return None
        ledger, findings = read_ledger(text, name, self.today)
        self.findings += findings
        return ledger

    def refuse_references(self, lessons: Collection[str]) -> None:
        """Note what texts point to and isn't there, once all lessons are known."""
        known = frozenset(lessons)
        for path, text in self.files.texts.items():
            if not known.issuperset(self.names.get(path, (text,))):
                self.findings += find_wrong_references(text, path, lessons)

    def _is_new(self, path: Path, seen: dict[str, str]) -> bool:
        name = path.relative_to(self.root).as_posix()
        first = seen.setdefault(path.stem, name)
        if first != name:
            fact = f'"{path.stem}" is already the id of {first}'
            self.findings.append(rules.ID_DOUBLED.at(Place(name), fact, "rename one of the files"))
        return first == name

    def _read_lesson_files(self, frame: CourseFrame) -> Iterator[tuple[Path, Lesson | None]]:
        """Yield each file with its lesson; what no earlier run has kept is read on all cores."""
        opened = [(path, *self.files.read(path)) for path in _list_originals(self, "lessons")]
        lessons = {name: self._find_kept(name, text) for _, name, text in opened}
        unread = [(name, text) for _, name, text in opened if lessons[name] is None]
        parted = [file for name, text in unread if (file := self.files.split(name, text))]
        read = share(partial(_read_alone, frame, self.today), parted)
        for file, (lesson, findings) in zip(parted, read, strict=True):
            self.findings += findings
            lessons[file.path] = lesson
            if lesson and self.shelf:
                self.shelf.keep(file.path, self.files.texts[file.path], lesson)
        yield from ((path, lessons[name]) for path, name, _ in opened)

    def _find_kept(self, name: str, text: str | None) -> Lesson | None:
        """Return the lesson of a file from earlier runs, where neither file has changed."""
        found = self.shelf.find(name, text) if self.shelf and text is not None else None
        if found is None:
            return None
        self.names[name] = found.names
        return found.lesson


def _read_alone(
    frame: CourseFrame, today: date, file: TextFile
) -> tuple[Lesson | None, list[Finding]]:
    return read_lesson(file, frame.vocabulary, frame.traits, today)


def _list_originals(reader: FolderReader, folder: str) -> Iterator[Path]:
    """Yield the Markdown files of a folder; report translations of nothing."""
    for path in sorted((reader.folder / folder).rglob("*.md")):
        place = Place(path.relative_to(reader.root).as_posix())
        original, language = split_language(path.as_posix(), reader.languages)
        stem, dot, tag = path.stem.rpartition(".")
        if dot and not language and path.with_name(f"{stem}.md").is_file():
            fact = f'this translates "{stem}.md" into "{tag}", which is no language of the course'
            cure = f"name it in {COURSE_FILE}, such as languages: {{{tag}: {{}}}}"
            reader.findings.append(rules.FILE_MISPLACED.at(place, fact, cure))
        elif not language:
            yield path
        elif not Path(original).is_file():
            fact = f'nothing is translated here: there is no "{Path(original).name}"'
            cure = "give the file its original's name, with the language before the ending"
            reader.findings.append(rules.FILE_MISPLACED.at(place, fact, cure))
