"""The time that a build is told."""

from datetime import UTC, datetime

import pytest

from builder.errors import BuilderError
from builder.publishing.book.book import find_modified
from builder.publishing.build_time import read_build_time
from builder.reading.course_folder import read_course
from tests.conftest import SMALL_COURSE


@pytest.mark.parametrize("epoch", [None, ""])
def test_without_a_time_there_is_none(epoch: str | None) -> None:
    assert read_build_time(epoch) is None


def test_a_time_ahead_is_a_time() -> None:
    assert read_build_time("4102444800") == datetime(2100, 1, 1, tzinfo=UTC)


@pytest.mark.parametrize("epoch", ["soon", "1e9", "17.5", "1700000000000000", "9" * 5000])
def test_what_is_no_time_is_refused_by_the_book_too(epoch: str) -> None:
    course = read_course(SMALL_COURSE).course
    assert course is not None
    with pytest.raises(BuilderError, match="SOURCE_DATE_EPOCH"):
        find_modified(course, epoch)
