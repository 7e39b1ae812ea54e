"""The small course as a book."""

from datetime import UTC, datetime
from io import BytesIO

import pytest
from PIL import Image

from builder.course.course import Course
from builder.publishing.book.book import make_book
from tests.publishing.book.opened import OpenedBook, open_book

NOON = datetime(2026, 11, 25, 12, tzinfo=UTC)


def paint_cover() -> bytes:
    """Return a small picture; what is on it doesn't matter here."""
    target = BytesIO()
    Image.new("RGB", (12, 16), "white").save(target, "PNG")
    return target.getvalue()


@pytest.fixture(scope="session")
def content(small_course: Course) -> bytes:
    return make_book(small_course, paint_cover(), NOON)


@pytest.fixture(scope="session")
def book(content: bytes) -> OpenedBook:
    return open_book(content)
