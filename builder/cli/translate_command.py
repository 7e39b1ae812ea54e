"""`tempoleaf translate`: see how far a language is, make drafts, and agree to what is done."""

from collections.abc import Iterable, Sequence
from pathlib import Path
from typing import Annotated

import typer

from builder.cli.folder_options import ProjectOption
from builder.course.course import Course
from builder.errors import BuilderError
from builder.reading.course_folder import CourseReading, read_course
from builder.reading.translation.kept import write_kept
from builder.reading.translation.originals import Kind, Original
from builder.reading.translation.status import State, Status, find_status
from builder.report.draft import draft_course, draft_lesson, draft_notice, draft_placement
from builder.work.left import mend_folders
from builder.work.whole import write_whole

_CONTENT = "content"


def translate(
    language: Annotated[str, typer.Argument(help="One of the languages that course.yml names.")],
    names: Annotated[
        list[str] | None,
        typer.Argument(help="Ids of lessons or notices, or files; all of them if left out."),
    ] = None,
    *,
    project: ProjectOption = Path(),
    draft: Annotated[
        bool, typer.Option("--draft", help="Write a draft where a translation is missing.")
    ] = False,
    agree: Annotated[
        bool, typer.Option("--agree", help="Say that these translations fit their originals.")
    ] = False,
) -> None:
    """Show what of a course is translated into a language, and what has changed since.

    A draft holds the original's words, to be written over. To agree keeps the originals as they
    are now, so that a later change in one is a finding that shows it. Exit code 0, or 2 when it
    couldn't run.
    """
    if draft and agree:
        raise BuilderError("--draft and --agree are given together", "leave one of them out")
    course, reading = _read(project, language)
    found = _choose(find_status(project / _CONTENT, course, reading.pages, language), names or [])
    if draft or agree:
        for folder in {path.parent for each in found for path in (each.path, each.kept)}:
            mend_folders(folder)
    if draft:
        _write_drafts(course, project, [each for each in found if each.state is State.MISSING])
    elif agree:
        _keep([each for each in found if each.state in (State.UNAGREED, State.STALE)])
    else:
        _show(found)


def _read(project: Path, language: str) -> tuple[Course, CourseReading]:
    reading = read_course(project)
    if reading.course is None:
        raise BuilderError("the course file can't be read", "see what is wrong: tempoleaf check")
    if language not in reading.course.settings.languages:
        raise BuilderError(
            f'"{language}" is no language of this course',
            f"name it in {reading.course.settings.path}, such as languages: {{{language}: {{}}}}",
        )
    return reading.course, reading


def _choose(found: Iterable[Status], names: Sequence[str]) -> list[Status]:
    """Return the files that are meant; ids, paths from the project and translations' paths."""
    every = list(found)
    for name in names:
        if not any(_is_meant(each, name) for each in every):
            raise BuilderError(
                f'"{name}" is nothing that is translated',
                "give the id of a lesson or notice, or a file such as content/safety.md",
            )
    return [each for each in every if not names or any(_is_meant(each, name) for name in names)]


def _is_meant(status: Status, name: str) -> bool:
    original = status.original
    known = (original.id, original.within, original.place.path, status.path.name)
    return name in known or Path(name) == status.path


def _write_drafts(course: Course, project: Path, missing: Sequence[Status]) -> None:
    """Write drafts, and before each the original that it is made of: a run may end between."""
    for each in missing:
        _write_kept(each)
        write_whole(each.path, _draft(course, project, each.original))
        print(f"{each.path}: write over its words")
    print(f"{len(missing)} drafts were written." if missing else "No translation is missing.")


def _draft(course: Course, project: Path, original: Original) -> str:
    match original.kind:
        case Kind.COURSE:
            return draft_course(course)
        case Kind.PLACEMENT if course.placement:
            return draft_placement(course.placement)
        case Kind.LESSON:
            return draft_lesson(course.by_id[original.id])
        case Kind.NOTICE:
            return draft_notice(next(n for n in course.notices if n.id == original.id))
        case _:
            return (project / original.place.path).read_text(encoding="utf-8")


def _keep(done: Sequence[Status]) -> None:
    for each in done:
        _write_kept(each)
        print(f"{each.path}: agreed")
    print(f"{len(done)} translations were agreed to." if done else "Nothing is to be agreed to.")


def _write_kept(status: Status) -> None:
    status.kept.parent.mkdir(parents=True, exist_ok=True)
    write_whole(status.kept, write_kept(status.original.parts))


def _show(found: Sequence[Status]) -> None:
    for each in found:
        if each.state is not State.CURRENT:
            print(f"{each.path}: {each.state}")
            for change in each.changes:
                print(f"    {change}")
    current = sum(each.state is State.CURRENT for each in found)
    print(f"{current} of {len(found)} translations are current.")
