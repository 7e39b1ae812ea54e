"""The course as a book beside its pages."""

import os
from pathlib import Path

from builder.findings import Finding
from builder.publishing.book.book import find_modified, make_book
from builder.publishing.book.lesson_chapters import write_lessons
from builder.publishing.cards.run import Shelf, write_file
from builder.publishing.pages.excerpt import Excerpts
from builder.publishing.proof.book import find_book_faults

EPOCH = "SOURCE_DATE_EPOCH"
"""The variable that fixes a file's time (reproducible-builds.org)."""


def write_book(excerpts: Excerpts, cover: bytes, path: Path, shelf: Shelf) -> tuple[Finding, ...]:
    """Write a course's book and return what is wrong with it; with a fault there is no file.

    On the ``shelf`` lie chapters, and what was found in them, since the last book.
    """
    course = excerpts.site.course
    modified = find_modified(course, os.environ.get(EPOCH))
    book = make_book(course, cover, modified, write_lessons(excerpts, shelf))
    faults = find_book_faults(course, book, excerpts, shelf)
    if not faults:
        write_file(path, book)
    return faults
