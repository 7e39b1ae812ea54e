"""The pages of all lessons: what was made before from the same things isn't made again."""

from collections.abc import Iterable, Iterator, Mapping
from concurrent.futures import BrokenExecutor, Executor

from builder.errors import BuilderError
from builder.publishing.cards.run import Shelf
from builder.publishing.pages.drawn_figure import DrawnFigure, FigureOrder, draw_figure
from builder.publishing.pages.excerpt import Excerpt, Excerpts
from builder.publishing.pages.lesson import make_lesson_page
from builder.publishing.pages.links import Site, lesson_page
from builder.work.pool import open_pool

_MANY = 40
"""Figures from which on two processes are done sooner than one, with all they have to load."""
_PER_JOB = 10


def make_lesson_pages(site: Site, shelf: Shelf | None) -> dict[str, str]:
    """Return the page of every lesson by its path, in the order of the course.

    Without a ``shelf`` nothing is kept, and all is made in this process.
    """
    excerpts = Excerpts(site)
    made: dict[str, str] = {}
    missing: list[tuple[str, Excerpt]] = []
    for lesson in site.course.lessons:
        excerpt, key = excerpts.cut(lesson)
        piece = shelf.get(key) if shelf else None
        made[lesson_page(lesson)] = "" if piece is None else piece.decode()
        if piece is None:
            missing.append((key, excerpt))
    figures = _fetch_figures([excerpt for _, excerpt in missing], shelf)
    for key, excerpt in missing:
        text = make_lesson_page(excerpt, figures.get(excerpt.lesson.id))
        made[lesson_page(excerpt.lesson)] = text
        if shelf:
            shelf.put(key, text.encode())
    return made


def draw_figures(
    figures: Mapping[str, FigureOrder], pool: Executor
) -> Iterator[tuple[str, DrawnFigure]]:
    """Draw figures in worker processes; yield each by its key as soon as it is there."""
    names = tuple(figures)
    parts = (names[start : start + _PER_JOB] for start in range(0, len(names), _PER_JOB))
    jobs = [(part, pool.submit(_draw_all, [figures[name] for name in part])) for part in parts]
    try:
        for part, job in jobs:
            yield from zip(part, job.result(), strict=True)
    except BrokenExecutor as error:
        raise BuilderError(
            "a worker process that draws figures was ended from outside",
            "see that enough memory is free, then run this again",
        ) from error


def _fetch_figures(excerpts: Iterable[Excerpt], shelf: Shelf | None) -> dict[str, DrawnFigure]:
    """Return the figures of lessons by their ids, from the shelf or freshly drawn."""
    keys: dict[str, str] = {}
    drawn: dict[str, DrawnFigure] = {}
    undrawn: dict[str, FigureOrder] = {}
    for excerpt in excerpts:
        if excerpt.lesson.figure:
            order = FigureOrder(excerpt.lesson.figure, excerpt.settings.language)
            key = keys[excerpt.lesson.id] = order.key
            piece = shelf.get(key) if shelf and key not in drawn else None
            if piece is not None:
                drawn[key] = DrawnFigure.from_bytes(piece)
            elif key not in drawn:
                undrawn[key] = order
    for key, figure in _draw(undrawn, in_workers=bool(shelf) and len(undrawn) > _MANY):
        drawn[key] = figure
        if shelf:
            shelf.put(key, figure.to_bytes())
    return {name: drawn[key] for name, key in keys.items()}


def _draw(
    undrawn: Mapping[str, FigureOrder], *, in_workers: bool
) -> Iterator[tuple[str, DrawnFigure]]:
    if in_workers:
        with open_pool() as pool:
            yield from draw_figures(undrawn, pool)
    else:
        yield from ((key, draw_figure(order)) for key, order in undrawn.items())


def _draw_all(orders: Iterable[FigureOrder]) -> list[DrawnFigure]:
    """Draw several figures; works in another process."""
    return [draw_figure(order) for order in orders]
