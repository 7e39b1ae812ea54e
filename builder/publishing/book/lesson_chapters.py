"""The chapters of all lessons: what was written before from the same things isn't written again."""

from builder.publishing.book.lesson_chapter import write_lesson
from builder.publishing.cards.run import Shelf
from builder.publishing.pages.excerpt import Excerpt, Excerpts
from builder.work.digest import digest
from builder.work.share import share


def write_lessons(excerpts: Excerpts, shelf: Shelf | None = None) -> dict[str, str]:
    """Return the chapter of every lesson by its id.

    A chapter is written from its lesson's excerpt alone, as a page is, so that it can't show what
    its key leaves out. Without a ``shelf`` nothing is kept.
    """
    texts: dict[str, str] = {}
    missing: list[tuple[str, Excerpt]] = []
    for lesson in excerpts.site.course.lessons:
        excerpt, page_key = excerpts.cut(lesson)
        key = digest("chapter", page_key)
        piece = shelf.get(key) if shelf else None
        if piece is None:
            missing.append((key, excerpt))
        else:
            texts[lesson.id] = piece.decode()
    written = share(_write, [excerpt for _, excerpt in missing])
    for (key, excerpt), text in zip(missing, written, strict=True):
        texts[excerpt.lesson.id] = text
        if shelf:
            shelf.put(key, text.encode())
    return texts


def _write(excerpt: Excerpt) -> str:
    return write_lesson(excerpt.make_site().course, excerpt.lesson)
