"""One lesson of a course that is known, read again after its file was edited."""

from datetime import date
from pathlib import Path, PurePosixPath

from builder.course.course import Course
from builder.course.lesson import Lesson
from builder.findings import Finding
from builder.reading.latest_day import find_latest_day
from builder.reading.lesson_file import read_lesson
from builder.reading.opened_files import OpenedFiles
from builder.reading.references import find_wrong_references


def read_lesson_again(
    root: Path, course: Course, lesson: Lesson, today: date | None = None
) -> Lesson | None:
    """Return a lesson as its file has it now; None where anything in the file is wrong.

    Strands, traits and other lessons are taken to be those of the course, whose project is at
    ``root``.
    """
    findings: list[Finding] = []
    folder = root / PurePosixPath(course.settings.path).parent
    files = OpenedFiles(root, folder, findings, course.settings.trust)
    name, text = files.read(root / lesson.path)
    file = files.split(name, text)
    if file is None or text is None:
        return None
    again, found = read_lesson(file, course.vocabulary, course.traits, today or find_latest_day())
    findings += (*found, *find_wrong_references(text, name, course.by_id))
    return None if findings else again
