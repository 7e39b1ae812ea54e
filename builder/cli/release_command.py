"""`tempoleaf release`: note which cards changed, so that an old one can be told."""

from collections.abc import Sequence
from datetime import date
from pathlib import Path
from typing import Annotated

import typer

from builder.checks.run import check_course
from builder.cli.languages import choose_language
from builder.course.course import Course
from builder.course.release import Release
from builder.errors import BuilderError
from builder.findings import Severity, sort_findings
from builder.language import language_of, mark
from builder.reading.course_folder import read_course
from builder.reading.releases_file import LEDGER_FILE, read_ledger
from builder.reading.translation.names import name_translation
from builder.report.ledger_text import HEAD, write_releases
from builder.report.summary import summarise
from builder.report.text import write_text
from builder.sums.version import Unreleased, find_unreleased
from builder.work.left import mend_folders
from builder.work.whole import write_whole

_FIRST = mark("First release.")


def release(
    project: Annotated[Path, typer.Argument(help="The folder that holds content/.")] = Path(),
    *,
    why: Annotated[
        str, typer.Option(help="What changed, in one line for whoever holds an old card.")
    ] = "",
    language: Annotated[
        str, typer.Option(help="One of the course's other languages; its own if left out.")
    ] = "",
    lesson: Annotated[
        list[str] | None, typer.Option(help="Only this lesson; may be given several times.")
    ] = None,
) -> None:
    """Note in content/releases.yml each card that says something new.

    The cards of another language have a ledger of their own, such as content/releases.es.yml.

    Whoever scans an older card then reads on the lesson's page since when it is out of date, and
    why. A change in a notice counts for every card that carries it. Give changes that have
    different reasons one after the other, with --lesson. Exit code 0, 1 when findings stand in
    the way, 2 when it couldn't run.
    """
    course = choose_language(_read_sound(project), language)
    path = project / "content" / _name_ledger(course)
    mend_folders(path.parent, path.name)
    new = _choose(course, lesson or [])
    if not new:
        print("Every card is as it was released.")
        return
    for card in new:
        before = f"{card.last.code} of {card.last.on}" if card.last else "new"
        print(f"{card.lesson.id}, {card.audience} card: {card.code} ({before})")
    reason = " ".join(why.split())
    if not reason and any(card.last for card in new):
        raise BuilderError(
            "a changed card needs a reason for whoever holds the old one",
            'add --why "what changed"',
        )
    releases = _make(course, new, reason)
    _add(path, releases, is_begun=bool(course.ledger and course.ledger.releases))
    print(f"{len(releases)} noted in {path}. Build the site again, so that its pages know.")


def _name_ledger(course: Course) -> str:
    settings = course.settings
    return (
        name_translation(LEDGER_FILE, settings.language) if settings.is_translation else LEDGER_FILE
    )


def _make(course: Course, new: Sequence[Unreleased], reason: str) -> list[Release]:
    first = language_of(course.settings.language).say(_FIRST)
    today = date.today()
    return [
        Release(card.lesson.id, card.audience, card.code, today, reason if card.last else first)
        for card in new
    ]


def _add(path: Path, releases: Sequence[Release], *, is_begun: bool) -> None:
    """Add releases to the ledger, if it can be read afterwards."""
    before = path.read_text(encoding="utf-8") if is_begun else HEAD
    text = f"{before.rstrip()}\n{write_releases(releases)}"
    if read_ledger(text, path.name, date.today())[0] is None:
        raise BuilderError(
            f'"{path}" can\'t be added to',
            "give each release a line of its own, as `tempoleaf release` wrote them",
        )
    write_whole(path, text)


def _read_sound(project: Path) -> Course:
    """Return a course in which nothing is wrong; what can't be published can't be released."""
    reading = read_course(project)
    checked = check_course(reading.course) if reading.course else ()
    errors = [
        finding
        for finding in sort_findings((*reading.findings, *checked))
        if finding.rule.severity is Severity.ERROR
    ]
    if errors or reading.course is None:
        print(write_text(errors, summarise(errors, 0)), flush=True)
        raise typer.Exit(1)
    return reading.course


def _choose(course: Course, lessons: Sequence[str]) -> tuple[Unreleased, ...]:
    for name in lessons:
        if name not in course.by_id:
            raise BuilderError(f'there is no lesson "{name}"', "give the id of one")
    return tuple(
        card for card in find_unreleased(course) if not lessons or card.lesson.id in lessons
    )
