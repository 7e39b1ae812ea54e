"""The pages of all lessons: what was made before from the same things isn't made again."""

from collections.abc import Iterable

from builder.publishing.cards.run import Shelf
from builder.publishing.pages.drawn_figure import DrawnFigure, FigureOrder, draw_figure
from builder.publishing.pages.excerpt import Excerpt, Excerpts
from builder.publishing.pages.lesson import make_lesson_page
from builder.publishing.pages.links import Site, lesson_page
from builder.work.share import share


def make_lesson_pages(site: Site, excerpts: Excerpts, shelf: Shelf | None) -> dict[str, str]:
    """Return the page of every lesson by its path, in the order of the course.

    Without a ``shelf`` nothing is kept.
    """
    made: dict[str, str] = {}
    missing: list[tuple[str, Excerpt]] = []
    for lesson in site.course.lessons:
        excerpt, key = excerpts.cut(lesson)
        piece = shelf.get(key) if shelf else None
        made[lesson_page(lesson)] = "" if piece is None else piece.decode()
        if piece is None:
            missing.append((key, excerpt))
    figures = _fetch_figures([excerpt for _, excerpt in missing], shelf)

    def make(wanted: tuple[str, Excerpt]) -> str:
        key, excerpt = wanted
        text = make_lesson_page(excerpt, figures.get(excerpt.lesson.id))
        if shelf:
            shelf.put(key, text.encode())
        return text

    texts = zip(missing, share(make, missing), strict=True)
    return made | {lesson_page(excerpt.lesson): text for (_, excerpt), text in texts}


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
    drawn |= zip(undrawn, share(draw_figure, tuple(undrawn.values())), strict=True)
    if shelf:
        for key in undrawn:
            shelf.put(key, drawn[key].to_bytes())
    return {name: drawn[key] for name, key in keys.items()}
