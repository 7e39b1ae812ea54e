"""A studio's own course, made from the starter in one go."""

import os
from collections.abc import Mapping
from dataclasses import dataclass, replace
from pathlib import Path

from builder import rules
from builder.checks.run import check_course
from builder.course.course import Course
from builder.course.language_tag import root_of
from builder.errors import BuilderError, InvalidValueError
from builder.findings import Finding, Severity, sort_findings
from builder.reading.course_folder import CourseReading, read_course
from builder.reading.folder_reader import COURSE_FILE
from builder.reading.pages import GLOSSARY_PAGE
from builder.reading.placement_file import PLACEMENT_FILE
from builder.reading.releases_file import LEDGER_FILE
from builder.reading.translation.names import split_language
from builder.resources import find_starter
from builder.starting.choice import Brought, Choice, choose, find_strands
from builder.starting.course_text import drop_languages, keep_notices, write_course_file
from builder.starting.folder import fill_whole, write_files
from builder.starting.lesson_text import keep_harder
from builder.starting.page_text import Missing, leave_out
from builder.starting.placement_text import keep_placement
from builder.starting.project_files import SCHEMA_LINE, make_project_files
from builder.starting.wishes import Wishes, check_wishes

CONTENT = "content"


@dataclass(frozen=True, slots=True)
class NewCourse:
    """What was made, and what its owner should know."""

    folder: Path
    lessons: int
    brought: tuple[Brought, ...]
    changed_pages: tuple[str, ...]
    """Pages that lost sentences about lessons that weren't chosen, by path."""
    findings: tuple[Finding, ...]
    """What the course's own checks say of it; never an error."""
    can_publish: bool
    """False where its owner must first say where a web host gets the tool from."""


def read_starter() -> Course:
    """Read the starter course that is shipped with the tool."""
    folder = find_starter()
    course = read_course(folder.parent, folder.name).course
    if course is None or course.unreadable:
        raise BuilderError("the starter course can't be read", "install tempoleaf again")
    return course


def make_course(target: Path, wishes: Wishes, starter: Course) -> NewCourse:
    """Make a course at a new or empty folder, whole or not at all."""
    place = Path(os.path.realpath(target))
    try:
        exact = check_wishes(wishes)
        strands = find_strands(starter, exact.strands)
    except InvalidValueError as error:
        raise BuilderError(error.fact, error.cure) from error
    if exact.language and root_of(exact.language) != root_of(starter.settings.language):
        raise _written_otherwise(exact.language)
    originals = _read_starter_files()
    choice = choose(starter, strands, _lesson_texts(starter, originals))
    content = _choose_content(starter, choice, originals, exact)
    project = make_project_files(exact, starter.settings.title)
    with fill_whole(place) as folder:
        write_files(folder, {f"{CONTENT}/{path}": text for path, text in content.items()})
        write_files(folder, project)
        reading = read_course(folder, CONTENT)
        findings = _examine(reading, exact, choice)
    return NewCourse(
        folder=place,
        lessons=len(choice.lessons),
        brought=choice.brought,
        changed_pages=tuple(
            f"{CONTENT}/{path}"
            for path, text in content.items()
            if "/" not in path and path != COURSE_FILE and text != originals[path]
        ),
        findings=findings,
        can_publish=not _lacks_source(project["requirements.txt"]),
    )


def _read_starter_files() -> dict[str, bytes]:
    folder = find_starter()
    paths = (path for path in sorted(folder.rglob("*")) if path.is_file())
    return {
        path.relative_to(folder).as_posix(): path.read_bytes()
        for path in paths
        if not any(part.startswith(".") for part in path.relative_to(folder).parts)
    }


def _lesson_texts(starter: Course, files: Mapping[str, bytes]) -> dict[str, str]:
    return {lesson.id: files[_within(lesson.path)].decode("utf-8") for lesson in starter.lessons}


def _choose_content(
    starter: Course, choice: Choice, files: Mapping[str, bytes], wishes: Wishes
) -> dict[str, bytes]:
    """Return the content of the new course by path; what needs no change stays byte for byte."""
    lessons = {_within(each.path) for each in starter.lessons if each.id in choice.lessons}
    notices = {_within(notice.place.path) for notice in choice.notices}
    missing = _find_missing(starter, choice)
    chosen: dict[str, bytes] = {}
    for path, content in files.items():
        if split_language(path, starter.settings.languages)[1]:
            continue  # a new course begins in one language
        if path == COURSE_FILE:
            text = write_course_file(content.decode("utf-8"), wishes, choice.strands)
            text = keep_notices(text, {notice.id for notice in choice.notices})
            text = drop_languages(text)
            chosen[path] = f"{SCHEMA_LINE}{text}".encode()
        elif path == PLACEMENT_FILE:
            text = keep_placement(content.decode("utf-8"), choice.strands, choice.lessons)
            chosen[path] = text.encode()
        elif path in lessons:
            chosen[path] = keep_harder(content.decode("utf-8"), choice.lessons).encode()
        elif path in notices or _is_page(path):
            named = replace(missing, strand_titles=()) if path == GLOSSARY_PAGE else missing
            chosen[path] = leave_out(content.decode("utf-8"), named).encode()
        elif path != LEDGER_FILE and not path.startswith(("lessons/", "notices/")):
            chosen[path] = content
    return chosen


def _find_missing(starter: Course, choice: Choice) -> Missing:
    strands = [
        each for each in starter.vocabulary.strands.values() if each.id not in choice.strands
    ]
    return Missing(
        lessons=frozenset(starter.by_id) - choice.lessons,
        strands=frozenset(strand.id for strand in strands),
        strand_titles=tuple(strand.title for strand in strands),
    )


def _examine(reading: CourseReading, wishes: Wishes, choice: Choice) -> tuple[Finding, ...]:
    """Return what the checks say of the new course; raise BuilderError on anything unsound."""
    course = reading.course
    found = (*reading.findings, *(check_course(course) if course else ()))
    if wishes.language and any(finding.rule == rules.FOREIGN_SPELLING for finding in found):
        raise _written_otherwise(wishes.language)
    errors = [finding for finding in found if finding.rule.severity is Severity.ERROR]
    if errors or course is None or len(course.lessons) != len(choice.lessons):
        first = f": {errors[0]}" if errors else ""
        raise BuilderError(f"the new course would not be sound{first}", "install tempoleaf again")
    return sort_findings(found)


def _written_otherwise(language: str) -> BuilderError:
    return BuilderError(
        f'the starter\'s lessons are not written as in "{language}"',
        f"leave --language out, and set it in {CONTENT}/{COURSE_FILE} once you have changed them",
    )


def _lacks_source(requirements: bytes) -> bool:
    lines = requirements.decode().splitlines()
    return all(line.startswith("#") or not line.strip() for line in lines)


def _is_page(path: str) -> bool:
    return "/" not in path and path.endswith(".md")


def _within(path: str) -> str:
    """Return a path from the content folder for one from the folder around it."""
    return path.partition("/")[2]
