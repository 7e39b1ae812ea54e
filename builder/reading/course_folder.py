"""A project's folder to a Course, with every problem of every file."""

import re
from collections.abc import Collection, Iterator
from dataclasses import dataclass
from datetime import date
from pathlib import Path

from builder import rules
from builder.course.course import Course
from builder.course.graph import order_topologically
from builder.course.lesson import Lesson
from builder.course.notice import Notice
from builder.course.vocabulary import Vocabulary
from builder.errors import BuilderError
from builder.findings import Finding, Place, sort_findings
from builder.reading.course_file import CourseFrame, make_frame
from builder.reading.known import HeaderCheck
from builder.reading.lesson_file import read_lesson
from builder.reading.notice_file import read_notice
from builder.reading.pages import Page, read_glossary, read_page
from builder.reading.schema import LONGEST_ID, SLUG, CourseHeader
from builder.reading.text_file import TextFile, read_text, split_header
from builder.reading.validation import validate
from builder.reading.yaml_tree import read_yaml

COURSE_FILE = "course.yml"
_RESERVED = re.compile(r"con|prn|aux|nul|com[0-9]|lpt[0-9]")
"""Names that no file may have on Windows."""


@dataclass(frozen=True, slots=True)
class CourseReading:
    """What was read: the course as far as it is sound, and what is wrong with the rest."""

    course: Course | None
    """None where the course file itself can't be read."""
    pages: tuple[Page, ...]
    findings: tuple[Finding, ...]


def read_course(root: Path, content: str = "content", today: date | None = None) -> CourseReading:
    """Read the course of a project's folder."""
    folder = root / content
    if not (folder / COURSE_FILE).is_file():
        raise BuilderError(
            f'there is no course here: "{folder / COURSE_FILE}" is missing',
            "run this in a course's folder, or make one with: tempoleaf new DIR",
        )
    reader = _Reader(root, folder, today or date.today(), [])
    frame = reader.read_frame()
    pages = tuple(reader.read_pages())
    if frame is None:
        return CourseReading(None, pages, sort_findings(reader.findings))
    notices = tuple(reader.read_notices(frame))
    lessons, unreadable = reader.read_lessons(frame)
    course = Course(
        settings=frame.settings,
        vocabulary=frame.vocabulary,
        traits=frame.traits,
        reference_bodies=frame.reference_bodies,
        lessons=order_lessons(lessons, frame.vocabulary),
        notices=notices,
        glossary=read_glossary(pages),
        unreadable=frozenset(unreadable),
        day=reader.today,
    )
    return CourseReading(course, pages, sort_findings(reader.findings))


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
    findings: list[Finding]

    def read_frame(self) -> CourseFrame | None:
        path = self.folder / COURSE_FILE
        text, findings = read_text(self.root, path)
        self.findings += findings
        if text is None:
            return None
        name = path.relative_to(self.root).as_posix()
        tree, findings = read_yaml(text, name)
        header, more = validate(tree, CourseHeader, name) if tree else (None, [])
        self.findings += findings + more
        if tree is None or header is None:
            return None
        check = HeaderCheck(tree, name, self.today)
        frame = make_frame(check, header)
        self.findings += check.findings
        return frame

    def read_pages(self) -> Iterator[Page]:
        for path in sorted(self.folder.glob("*.md")):
            text, findings = read_text(self.root, path)
            self.findings += findings
            if text is None:
                continue
            name = path.relative_to(self.root).as_posix()
            file: TextFile | None = TextFile(name, "", 1, text, 1)
            if text.startswith("---\n"):
                file, findings = split_header(text, name)
                self.findings += findings
            if file:
                page, findings = read_page(file, path.name)
                self.findings += findings
                yield from [page] if page else []

    def read_notices(self, frame: CourseFrame) -> Iterator[Notice]:
        for path in sorted((self.folder / "notices").glob("*.md")):
            file = self._open(path)
            if file:
                notice, findings = read_notice(
                    file, frame.traits, frame.vocabulary.conditions, self.today
                )
                self.findings += findings
                yield from [notice] if notice else []

    def read_lessons(self, frame: CourseFrame) -> tuple[list[Lesson], set[str]]:
        lessons: list[Lesson] = []
        seen: dict[str, str] = {}
        unreadable: set[str] = set()
        for path in sorted((self.folder / "lessons").rglob("*.md")):
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

    def _is_new(self, path: Path, seen: dict[str, str]) -> bool:
        name = path.relative_to(self.root).as_posix()
        first = seen.setdefault(path.stem, name)
        if first != name:
            fact = f'"{path.stem}" is already the id of {first}'
            self.findings.append(rules.ID_DOUBLED.at(Place(name), fact, "rename one of the files"))
        return first == name

    def _open(self, path: Path) -> TextFile | None:
        name = path.relative_to(self.root).as_posix()
        if not re.fullmatch(SLUG, path.stem) or len(path.stem) > LONGEST_ID:
            fact = f'the file name "{path.stem}" is no id'
            cure = f"use small letters, digits and single hyphens, {LONGEST_ID} at most"
            self.findings.append(rules.ID_MALFORMED.at(Place(name), fact, cure))
            return None
        if _RESERVED.fullmatch(path.stem):
            fact = f'"{path.stem}" can\'t be a file name on every computer'
            self.findings.append(rules.ID_MALFORMED.at(Place(name), fact, "rename the file"))
            return None
        text, findings = read_text(self.root, path)
        self.findings += findings
        if text is None:
            return None
        file, findings = split_header(text, name)
        self.findings += findings
        return file
