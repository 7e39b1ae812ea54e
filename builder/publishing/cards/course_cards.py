"""All cards of a course: what is stale is printed, what isn't comes from the cache."""

from collections.abc import Iterator, Sequence
from concurrent.futures import BrokenExecutor, Executor
from dataclasses import dataclass
from pathlib import Path

from builder.course.audience import Audience
from builder.course.course import Course
from builder.course.lesson import Lesson
from builder.errors import BuilderError
from builder.findings import Finding, sort_findings
from builder.publishing.cards.course_packs import bind_packs
from builder.publishing.cards.making import CardMaker
from builder.publishing.cards.outline import Outliner
from builder.publishing.cards.pack_plan import plan_packs
from builder.publishing.cards.run import PaperRun, Shelf, write_file
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
    outliner: Outliner | None = None,
) -> tuple[Finding, ...]:
    """Write the cards of a course into a folder and return what is wrong with them.

    A card that isn't sound isn't written, nor is a pack or sheet that it belongs to. Cards of the
    course's own paper lie in the folder itself, those of others in a folder named after the paper;
    packs and sheets lie in folders beside their cards.
    """
    chosen = set(order.lessons) or set(course.by_id)
    lessons = [lesson for lesson in course.lessons if lesson.id in chosen]
    runs = tuple(_plan(course, folder, order, lessons)) if lessons else ()
    if not runs:
        return ()
    try:
        known = outliner or Outliner(course)
        maker = CardMaker(course, order.audience, runs, shelf, known, progress)
        faults = maker.make(lessons, pool)
        whole = [run for run in runs if len(run.keys) == len(lessons)]
        bind_packs(whole, pool, shelf)
    except BrokenExecutor as error:
        raise BuilderError(
            "a worker process that prints cards was ended from outside",
            "see that enough memory is free, then run this again",
        ) from error
    for run in whole if order.sheets else ():
        if run.paper.id in SHEET_OF:
            _write_sheets(run, lessons)
    return sort_findings(faults)


def _plan(
    course: Course, folder: Path, order: CardOrder, lessons: Sequence[Lesson]
) -> Iterator[PaperRun]:
    for name in order.papers:
        paper = PAPERS[name]
        packs = plan_packs(course, lessons, paper) if name in order.packs else ()
        own = folder if name == course.settings.paper else folder / name
        yield PaperRun(paper, own, packs)


def _write_sheets(run: PaperRun, lessons: Sequence[Lesson]) -> None:
    # Loaded here, because it brings a library along that most runs have no work for.
    from builder.publishing.cards.sheets import print_sheets  # noqa: PLC0415

    cards = [run.read_card(lesson.id) for lesson in lessons]
    write_file(run.folder / "sheets" / "to-cut.pdf", print_sheets(cards, run.paper))
