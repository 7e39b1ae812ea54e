"""All cards of a course: what is stale is printed, what isn't comes from the cache."""

from collections.abc import Iterator, Mapping
from concurrent.futures import BrokenExecutor, Executor
from dataclasses import dataclass
from pathlib import Path

from builder.course.audience import Audience
from builder.course.course import Course
from builder.errors import BuilderError
from builder.findings import Finding, sort_findings
from builder.publishing.cards.face import face_cards
from builder.publishing.cards.findings import find_card_faults
from builder.publishing.cards.pack_plan import plan_packs
from builder.publishing.cards.run import PaperRun, Shelf
from builder.publishing.cards.sheets import print_sheets
from builder.publishing.cards.worker import run_batch
from builder.sums.paper import PAPERS, SHEET_OF
from builder.work.progress import SILENT, Progress


@dataclass(frozen=True, slots=True)
class CardOrder:
    """Which cards are wanted."""

    papers: tuple[str, ...]
    audience: Audience = Audience.CLIENT
    lessons: tuple[str, ...] = ()
    """Ids; empty for all."""
    packs: tuple[str, ...] = ()
    """Papers on which packs are bound."""
    sheets: bool = False


def make_cards(  # noqa: PLR0913  # what to make, and with what
    course: Course,
    folder: Path,
    order: CardOrder,
    *,
    pool: Executor,
    shelf: Shelf,
    progress: Progress = SILENT,
) -> tuple[Finding, ...]:
    """Write the cards of a course into a folder and return what is wrong with them.

    A card that isn't sound isn't written, nor is a pack or sheet that it belongs to. Cards of the
    course's own paper lie in the folder itself, those of others in a folder named after the paper;
    packs and sheets lie in folders beside their cards.
    """
    runs = _plan(course, order, shelf)
    _print(runs, pool, progress)
    findings = [finding for run in runs for finding in _find_faults(course, run)]
    for run in runs:
        own = run.paper.id == course.settings.paper
        _write(run, folder if own else folder / run.paper.id, order)
    return sort_findings(findings)


def _plan(course: Course, order: CardOrder, shelf: Shelf) -> tuple[PaperRun, ...]:
    chosen = set(order.lessons) or set(course.by_id)
    lessons = [lesson for lesson in course.lessons if lesson.id in chosen]
    papers = [PAPERS[name] for name in order.papers]
    if not lessons or not papers:
        return ()
    faces = face_cards(course, lessons, order.audience, papers)
    runs = []
    for paper in papers:
        packs = plan_packs(course, lessons, paper) if paper.id in order.packs else ()
        runs.append(PaperRun(paper, faces[paper.id], packs, shelf))
    return tuple(runs)


def _print(runs: tuple[PaperRun, ...], pool: Executor, progress: Progress) -> None:
    """Print what the cache lacks, side by side."""
    total = sum(len(run.faces) for run in runs)
    waiting = []
    for run in runs:
        run.fetch()
        waiting += [(run, batch, pool.submit(run_batch, batch)) for batch in run.list_batches()]
    try:
        for run, batch, result in waiting:
            run.take(batch, result.result())
            progress.tell("cards", sum(len(each.records) for each in runs), total)
    except BrokenExecutor as error:
        raise BuilderError(
            "a worker process that prints cards was ended from outside",
            "see that enough memory is free, then run this again",
        ) from error


def _find_faults(course: Course, run: PaperRun) -> Iterator[Finding]:
    for face in run.faces:
        lesson = course.by_id[face.lesson.id]
        yield from find_card_faults(lesson, face, run.records[lesson.id])


def _write(run: PaperRun, folder: Path, order: CardOrder) -> None:
    floor = run.paper.floor_points
    sound = {name: record.pdf for name, record in run.records.items() if record.is_sound(floor)}
    _write_files(folder, sound)
    if len(sound) < len(run.faces):
        return
    _write_files(folder / "packs", run.bound)
    if order.sheets and run.paper.id in SHEET_OF:
        cards = [sound[face.lesson.id] for face in run.faces]
        _write_files(folder / "sheets", {"to-cut": print_sheets(cards, run.paper)})


def _write_files(folder: Path, files: Mapping[str, bytes]) -> None:
    if files:
        folder.mkdir(parents=True, exist_ok=True)
    for name, content in files.items():
        (folder / f"{name}.pdf").write_bytes(content)
