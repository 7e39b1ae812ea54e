"""The course as a book beside its pages."""

import os
from pathlib import Path

from builder.course.course import Course
from builder.findings import Finding
from builder.publishing.book.book import find_modified, make_book
from builder.publishing.proof.book import find_book_faults

EPOCH = "SOURCE_DATE_EPOCH"
"""The variable that fixes a file's time (reproducible-builds.org)."""


def write_book(course: Course, cover: bytes, path: Path) -> tuple[Finding, ...]:
    """Write a course's book and return what is wrong with it; with a fault there is no file."""
    book = make_book(course, cover, find_modified(course, os.environ.get(EPOCH)))
    faults = find_book_faults(course, book)
    if not faults:
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_bytes(book)
    return faults
