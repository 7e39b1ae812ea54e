"""`tempoleaf figure`: write figures as SVG or PNG, or all of them on sheets."""

from collections.abc import Mapping
from pathlib import Path
from typing import Annotated

import typer

from builder.cli.folder_options import ProjectOption
from builder.course.course import Course
from builder.course.lesson import Lesson
from builder.course.names import suggest
from builder.errors import BuilderError
from builder.publishing.figures.picture import make_picture, paint_pages, paint_picture
from builder.publishing.figures.sheet import make_sheet
from builder.reading.course_folder import read_course
from builder.work.whole import replace_folder

_SHEET_DOTS_PER_INCH = 110


def figure(
    lessons: Annotated[
        list[str] | None, typer.Argument(help="Ids of lessons; all if left out.")
    ] = None,
    *,
    project: ProjectOption = Path(),
    png: Annotated[bool, typer.Option("--png", help="PNG instead of SVG.")] = False,
    sheet: Annotated[
        bool, typer.Option("--sheet", help="All figures on sheets, as one PDF and as PNG.")
    ] = False,
    out: Annotated[Path, typer.Option(help="The folder to make, replaced whole.")] = Path(
        "figures"
    ),
) -> None:
    """Write the figures of lessons, drawn from their headers.

    Exit code 0 when they are written, 2 when they can't be.
    """
    course = read_course(project).course
    if course is None:
        raise BuilderError("the course can't be read", "see: tempoleaf check")
    files = (
        _make_sheets(course)
        if sheet
        else _make_files(_choose(course, lessons or []), course.settings.language, png=png)
    )
    with replace_folder(out) as folder:
        for name, content in files.items():
            (folder / name).write_bytes(content)
    print(f"{len(files)} files stand in {out}.")


def _make_sheets(course: Course) -> Mapping[str, bytes]:
    pdf = make_sheet(course)
    pages = enumerate(paint_pages(pdf, _SHEET_DOTS_PER_INCH), start=1)
    return {"figures.pdf": pdf, **{f"figures-{number}.png": page for number, page in pages}}


def _make_files(lessons: tuple[Lesson, ...], language: str, *, png: bool) -> Mapping[str, bytes]:
    drawn = [(lesson.id, lesson.figure) for lesson in lessons if lesson.figure]
    if png:
        return {f"{name}.png": paint_picture(figure, name, language) for name, figure in drawn}
    return {f"{name}.svg": make_picture(figure, name, language).encode() for name, figure in drawn}


def _choose(course: Course, names: list[str]) -> tuple[Lesson, ...]:
    for name in names:
        lesson = course.by_id.get(name)
        if lesson is None:
            cure = suggest(name, course.by_id) or "see content/lessons for the ids"
            raise BuilderError(f'there is no lesson "{name}"', cure)
        if lesson.figure is None:
            raise BuilderError(
                f'the lesson "{name}" has no figure',
                'give its position a "pose" in course.yml, or the lesson a "figure"',
            )
    return tuple(course.by_id[name] for name in dict.fromkeys(names)) or course.lessons
