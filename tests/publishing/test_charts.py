"""Charts on paper, read back with a reader that didn't make it."""

from io import BytesIO

import pypdf
import pytest

from builder.course.course import Course
from builder.publishing.charts import (
    print_chart,
    write_air_chart,
    write_demand_chart,
    write_wall_chart,
)

# Upright sheets of ISO 216 in points of 1/72 inch.
PUBLISHED_POINTS = {"a3": (841.890, 1190.551), "a4": (595.276, 841.890)}


@pytest.mark.parametrize("sheet", PUBLISHED_POINTS)
def test_a_wall_chart_is_one_sheet_with_every_lesson(small_course: Course, sheet: str) -> None:
    pdf = print_chart(write_wall_chart(small_course, sheet))
    (page,) = pypdf.PdfReader(BytesIO(pdf)).pages
    size = sorted((float(page.mediabox.width), float(page.mediabox.height)))
    assert size == pytest.approx(PUBLISHED_POINTS[sheet], abs=0.01)
    words = " ".join(page.extract_text().split()).replace("- ", "-")
    for lesson in small_course.lessons:
        assert lesson.title in words
    assert small_course.settings.caution.split(".")[0] in words


def test_the_same_map_gives_the_same_chart(small_course: Course) -> None:
    charts = {print_chart(write_wall_chart(small_course, "a3")) for _ in range(2)}
    assert len(charts) == 1


def read_sheet(pdf: bytes, sheet: str) -> str:
    """Return the words of a chart that must be one sheet."""
    (page,) = pypdf.PdfReader(BytesIO(pdf)).pages
    size = sorted((float(page.mediabox.width), float(page.mediabox.height)))
    assert size == pytest.approx(PUBLISHED_POINTS[sheet], abs=0.01)
    return " ".join(page.extract_text().split()).replace("- ", "-")


def test_the_air_chart_is_one_sheet_with_its_caution_and_sources(small_course: Course) -> None:
    words = read_sheet(print_chart(write_air_chart(small_course, "a4")), "a4")
    for body in small_course.reference_bodies:
        assert body.name in words
    for part in ("4-1-4-1", "4-1-6-1", "Hall and others 2021", "Limits are ours"):
        assert part in words
    assert small_course.settings.caution.split(".")[0] in words


def test_the_demand_chart_is_one_sheet_with_every_lesson(small_course: Course) -> None:
    words = read_sheet(print_chart(write_demand_chart(small_course, "a3")), "a3")
    for lesson in small_course.lessons:
        assert lesson.title in words
    assert small_course.settings.caution.split(".")[0] in words
