"""The folder of a person's papers: both files or none, nothing stale, nothing of others lost."""

from pathlib import Path

import pytest

from builder.errors import BuilderError
from builder.publishing.client_sheet.job import CALENDAR, LARGE_SHEET, SHEET, MadeSheet
from builder.publishing.client_sheet.keeping import (
    find_sheet_folder,
    keep_sheet,
    read_earlier_calendar,
)


def make(name: str = SHEET, calendar: bytes = b"days") -> MadeSheet:
    return MadeSheet({name: b"pdf", CALENDAR: calendar}, 1, ())


def test_both_files_stand_in_a_folder_named_by_the_id(tmp_path: Path) -> None:
    folder = find_sheet_folder(tmp_path, "C5")
    keep_sheet(folder, make())
    assert folder == tmp_path / "coach" / "people" / "C5"
    assert (folder / SHEET).read_bytes() == b"pdf"
    assert read_earlier_calendar(folder) == b"days"


def test_an_older_sheet_of_the_other_form_goes(tmp_path: Path) -> None:
    folder = find_sheet_folder(tmp_path, "C5")
    keep_sheet(folder, make(LARGE_SHEET))
    keep_sheet(folder, make())
    assert not (folder / LARGE_SHEET).exists()


def test_other_files_of_the_folder_stay(tmp_path: Path) -> None:
    folder = find_sheet_folder(tmp_path, "C5")
    keep_sheet(folder, make())
    (folder / "letter.txt").write_text("kept", encoding="utf-8")
    keep_sheet(folder, make())
    assert (folder / "letter.txt").read_text(encoding="utf-8") == "kept"


def test_a_folder_of_somebody_else_is_left_alone(tmp_path: Path) -> None:
    folder = find_sheet_folder(tmp_path, "C5")
    folder.mkdir(parents=True)
    (folder / "mine.txt").write_text("mine", encoding="utf-8")
    with pytest.raises(BuilderError, match="did not make"):
        keep_sheet(folder, make())
    assert [path.name for path in folder.iterdir()] == ["mine.txt"]


def test_without_an_earlier_calendar_there_is_nothing_to_call_off(tmp_path: Path) -> None:
    assert read_earlier_calendar(tmp_path) == b""
