"""Names of files tell ids only."""

from datetime import date
from pathlib import Path

import pytest

from builder.course.course import Course
from builder.records.file_names import name_file_for, name_kept_file
from builder.records.known import Known
from builder.records.person import Person

ADA = Person("p-01", "Ada Li Quill")


def test_a_file_about_a_person_bears_their_id_and_no_name() -> None:
    assert name_file_for(ADA, "home-sheet", ".pdf") == "p-01-home-sheet.pdf"


@pytest.mark.parametrize(
    ("file", "kept"),
    [
        ("screen.csv", "screen"),
        ("Tuesday class, 2nd.xlsx", "Tuesday-class-2nd"),
        ("ada.csv", "export"),
        ("AdaQuill_results.csv", "export"),
        ("relics.csv", "relics"),
        ("li.csv", "export"),
        ("…….csv", "export"),
        ("a" * 90 + ".csv", "a" * 40),
    ],
)
def test_a_file_of_rows_kept_aside_is_named_after_its_source_unless_that_tells_a_name(
    course: Course, file: str, kept: str
) -> None:
    assert name_kept_file(Path(file), Known(course, date(2026, 11, 26), {ADA.id: ADA})) == kept
