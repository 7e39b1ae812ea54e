"""A course, read and checked lesson by lesson where a lesson has changed, else as it was kept."""

from datetime import date
from pathlib import Path

from builder.checked.answer import Checked
from builder.checks.kept_findings import FindingsShelf
from builder.checks.run import check_course
from builder.findings import sort_findings
from builder.reading.course_folder import CourseReading, read_course
from builder.work.kept import open_kept


def read_kept_course(
    project: Path, content: str = "content", today: date | None = None
) -> CourseReading:
    """Read the course of a project; lessons whose files haven't changed are as they were kept."""
    return read_course(project, content, today, open_kept(project, "lessons"))


def find_all(reading: CourseReading, project: Path) -> Checked:
    """Put what reading found and what checking finds together."""
    course = reading.course
    if course is None:
        return Checked(reading.findings, 0)
    shelf = FindingsShelf(open_kept(project, "findings"), reading.lesson_keys)
    findings = sort_findings((*reading.findings, *check_course(course, shelf)))
    return Checked(findings, len(course.lessons) + len(course.unreadable))
