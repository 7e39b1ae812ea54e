"""`tempoleaf cards`: print lesson cards, packs and sheets to cut as PDF."""

import shutil
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from time import perf_counter
from typing import Annotated

import typer

from builder.checked.course import find_all, read_kept_course
from builder.cli.card_options import (
    ArchiveOption,
    CoachOption,
    PacksOption,
    SheetsOption,
    VerapdfOption,
)
from builder.cli.cluster_option import ClusterOption
from builder.cli.folder_options import ProjectOption
from builder.cli.languages import choose_language
from builder.cli.press_note import tell_press
from builder.cli.progress_bar import QuietOption, show_progress
from builder.course.audience import Audience
from builder.course.course import Course
from builder.course.names import suggest
from builder.errors import BuilderError
from builder.findings import Finding, stops_publishing
from builder.publishing.cards.course_cards import CardOrder, make_cards
from builder.publishing.cards.refusals import find_refusals, make_archival
from builder.publishing.proof.structure.verapdf import find_verapdf
from builder.report.summary import summarise
from builder.report.text import write_text
from builder.sums.paper import PAPERS
from builder.work.cluster import open_workers
from builder.work.progress import Progress
from builder.work.store import ContentStore
from builder.work.whole import replace_folder

_CACHE = Path(".cache", "cards")
_FOLDERS = {Audience.CLIENT: "cards", Audience.COACH: "coach/cards"}
"""Coach cards never lie where client cards do."""


def cards(  # noqa: PLR0913  # one parameter for each option
    lessons: Annotated[
        list[str] | None, typer.Argument(help="Ids of lessons; all if left out.")
    ] = None,
    *,
    project: ProjectOption = Path(),
    paper: Annotated[
        list[str] | None,
        typer.Option(help=f"{', '.join(PAPERS)} or all; the course's own if left out."),
    ] = None,
    language: Annotated[
        str, typer.Option(help="One of the course's other languages, into cards-LANGUAGE/.")
    ] = "",
    coach: CoachOption = False,
    sheets: SheetsOption = False,
    packs: PacksOption = False,
    archive: ArchiveOption = False,
    verapdf: VerapdfOption = False,
    out: Annotated[
        Path | None,
        typer.Option(help="Where cards/ or coach/cards/ goes; the project if left out."),
    ] = None,
    cluster: ClusterOption = "",
    quiet: QuietOption = False,
) -> None:
    """Print lesson cards as PDF, one page each, and read every one back.

    Exit code 0 when all cards are sound, 1 when findings stopped it, 2 when it couldn't run.
    """
    judge = find_verapdf() if verapdf else ""
    course = _choose_course(project, language, is_archival=archive)
    papers = _choose_papers(paper or [], course)
    audience = Audience.COACH if coach else Audience.CLIENT
    order = CardOrder(
        papers=papers,
        audience=audience,
        lessons=_choose_lessons(lessons or [], course),
        packs=papers if packs else (),
        sheets=sheets,
    )
    ending = f"-{language}" if course.settings.is_translation else ""
    target = (out or project) / f"{_FOLDERS[audience]}{ending}"
    with show_progress(quiet=quiet) as progress:
        press = _Press(project, cluster, progress, judge)
        print(press.print_all(course, order, target))
    print("Every caution, step and cue was read back and found.")
    tell_press()


@dataclass(frozen=True, slots=True)
class _Press:
    """Where cards are kept between runs, who prints them, and who is told of it."""

    project: Path
    cluster: str
    progress: Progress
    verapdf: str
    """The command to ask; empty where it isn't asked."""

    def print_all(self, course: Course, order: CardOrder, target: Path) -> str:
        """Print cards into a folder as a whole; return what to say of it."""
        started, shelf = perf_counter(), ContentStore(self.project / _CACHE)
        with (
            _replace(target, keep=bool(order.lessons)) as folder,
            open_workers(self.cluster) as pool,
        ):
            faults = make_cards(
                course, folder, order, pool=pool, shelf=shelf, progress=self.progress
            )
            if self.verapdf:
                self.progress.tell("verapdf")
                faults = (*faults, *find_refusals(course, folder, self.verapdf))
            self.progress.tell("")
            _stop_on(faults)
            made = sum(1 for _ in folder.rglob("*.pdf"))
        shelf.sweep()
        return f"{made} PDFs stand in {target}, made in {perf_counter() - started:.1f} s."


def _choose_course(project: Path, language: str, *, is_archival: bool) -> Course:
    course = choose_language(_read_sound(project), language)
    return make_archival(course) if is_archival else course


def _read_sound(project: Path) -> Course:
    """Read and check the course; stop where it may not be published."""
    reading = read_kept_course(project)
    checked = find_all(reading, project)
    findings = checked.findings
    if findings:
        print(write_text(findings, summarise(findings, checked.lessons)), flush=True)
    if reading.course is None or _any_stops(findings):
        print("No card was printed; what stood there before still stands.", flush=True)
        raise typer.Exit(1)
    return reading.course


def _choose_papers(names: Sequence[str], course: Course) -> tuple[str, ...]:
    if "all" in names:
        return course.settings.papers or tuple(PAPERS)
    for name in names:
        if name not in PAPERS:
            cure = suggest(name, PAPERS) or f"give one of {', '.join(PAPERS)}"
            raise BuilderError(f'there is no paper "{name}"', cure)
    return tuple(dict.fromkeys(names)) or (course.settings.paper,)


def _choose_lessons(names: Sequence[str], course: Course) -> tuple[str, ...]:
    for name in names:
        if name not in course.by_id:
            cure = suggest(name, course.by_id) or "see content/lessons for the ids"
            raise BuilderError(f'there is no lesson "{name}"', cure)
    return tuple(dict.fromkeys(names))


@contextmanager
def _replace(target: Path, *, keep: bool) -> Iterator[Path]:
    """Replace a folder of cards as a whole; keep its other cards where only some are printed."""
    with replace_folder(target) as fresh:
        if keep and target.is_dir():
            shutil.copytree(target, fresh, dirs_exist_ok=True)
        yield fresh


def _stop_on(faults: Sequence[Finding]) -> None:
    if faults:
        print("\n".join(str(fault) for fault in faults), flush=True)
    if _any_stops(faults):
        print("No card was printed; what stood there before still stands.", flush=True)
        raise typer.Exit(1)


def _any_stops(findings: Sequence[Finding]) -> bool:
    return any(stops_publishing(finding, strict=False) for finding in findings)
