"""All cards of a course: what is stale is printed, what isn't comes from the cache."""

from collections.abc import Iterator, Sequence
from concurrent.futures import Executor
from dataclasses import dataclass
from pathlib import Path

from builder.course.audience import Audience
from builder.course.course import Course, Settings
from builder.course.lesson import Lesson
from builder.findings import Finding, sort_findings
from builder.language import language_of
from builder.publishing.cards.course_packs import bind_packs
from builder.publishing.cards.findings import tell_lost_pack
from builder.publishing.cards.hidden_cautions import find_hidden_cautions
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


@dataclass(frozen=True, slots=True)
class PrintedCards:
    """What came of an order's cards."""

    lessons: tuple[Lesson, ...] = ()
    runs: tuple[PaperRun, ...] = ()
    """Papers of which every card was written, and which so may have packs and sheets."""
    faults: tuple[Finding, ...] = ()


def make_cards(  # noqa: PLR0913  # what to make, and with what
    course: Course,
    folder: Path,
    order: CardOrder,
    *,
    pool: Executor,
    shelf: Shelf,
    progress: Progress = SILENT,
) -> tuple[Finding, ...]:
    """Write the cards, packs and sheets of a course, and return what is wrong with them.

    Packs and sheets lie in folders beside their cards.
    """
    printed = print_cards(course, folder, order, pool=pool, shelf=shelf, progress=progress)
    hidden = find_hidden_cautions(course, printed.lessons, printed.runs, order.audience, shelf)
    if hidden:
        return sort_findings((*printed.faults, *hidden))
    with bind_packs(printed.runs, pool, shelf) as lost:
        pass
    for run in printed.runs if order.sheets else ():
        if run.paper.id in SHEET_OF:
            _write_sheets(run, printed.lessons, course.settings)
    return (*printed.faults, *(tell_lost_pack(course, each) for each in lost))


def print_cards(  # noqa: PLR0913  # as above
    course: Course,
    folder: Path,
    order: CardOrder,
    *,
    pool: Executor,
    shelf: Shelf,
    progress: Progress = SILENT,
    outliner: Outliner | None = None,
) -> PrintedCards:
    """Write the cards of a course into a folder.

    A card that isn't sound isn't written. Cards of the course's own paper lie in the folder
    itself, those of others in a folder named after the paper.
    """
    chosen = set(order.lessons) or set(course.by_id)
    lessons = tuple(lesson for lesson in course.lessons if lesson.id in chosen)
    runs = tuple(_plan(course, folder, order, lessons)) if lessons else ()
    if not runs:
        return PrintedCards()
    known = outliner or Outliner(course)
    faults = CardMaker(course, order.audience, runs, shelf, known, progress).make(lessons, pool)
    whole = tuple(run for run in runs if len(run.keys) == len(lessons))
    return PrintedCards(lessons, whole, sort_findings(faults))


def _plan(
    course: Course, folder: Path, order: CardOrder, lessons: Sequence[Lesson]
) -> Iterator[PaperRun]:
    for name in order.papers:
        paper = PAPERS[name]
        packs = plan_packs(course, lessons, paper) if name in order.packs else ()
        own = folder if name == course.settings.paper else folder / name
        yield PaperRun(paper, own, packs)


def _write_sheets(run: PaperRun, lessons: Sequence[Lesson], settings: Settings) -> None:
    # Loaded here, because it brings a library along that most runs have no work for.
    from builder.publishing.cards.sheets import print_sheets  # noqa: PLC0415

    cards = [run.read_card(lesson.id) for lesson in lessons]
    language = language_of(settings.language)
    title = language.say("Cards to cut: {course}", course=settings.title)
    content = print_sheets(cards, run.paper, title, settings.language)
    write_file(run.folder / "sheets" / "to-cut.pdf", content)
