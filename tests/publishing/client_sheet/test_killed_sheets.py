"""Sheets whose run was killed: the next one mends what it left."""

from pathlib import Path

from builder.publishing.client_sheet.job import CALENDAR, SHEET, MadeSheet
from builder.publishing.client_sheet.keeping import (
    find_sheet_folder,
    is_current,
    keep_sheet,
    mend_sheets,
)
from tests.killed import Stage, kill_each_step

NEW = MadeSheet({SHEET: b"%PDF new", CALENDAR: b"BEGIN:VCALENDAR new"}, 1, ())


class KeepStage(Stage):
    """Writes one sheet, as a run over people does when it has been printed."""

    def work(self) -> None:
        mend_sheets(self.project)
        folder = find_sheet_folder(self.project, "K1")
        if not is_current(folder, "new"):
            keep_sheet(folder, NEW, "new")


def test_a_run_that_is_killed_at_any_step_leaves_nothing_that_the_next_does_not_mend(
    tmp_path: Path,
) -> None:
    project = tmp_path / "project"
    folder = find_sheet_folder(project, "K1")
    keep_sheet(folder, MadeSheet({SHEET: b"%PDF old", CALENDAR: b"old"}, 1, ()), "old")
    (folder / "note.txt").write_text("the coach's own")
    found = kill_each_step(KeepStage(("coach",), project, ()))
    assert found["faults"] == []
    assert found["killed"] > 12
    assert "coach/people/K1/note.txt" in found["files"]
    assert not [name for name in found["files"] if "/.K1-" in name]


def test_only_what_is_left_is_cleared_away_and_each_name_is_its_own(tmp_path: Path) -> None:
    people = find_sheet_folder(tmp_path, "K1").parent
    for name, inside in {
        ".K1-abcdefgh": "fresh",  # half a sheet
        ".K2-abcdefgh": "old",  # moved away, and never moved back
        ".K3-abcdefgh": "letter",  # nothing of ours
        ".K4-short": "fresh",
    }.items():
        (people / name / inside).mkdir(parents=True)
        (people / name / inside / "sheet.pdf").write_text(name)
    mend_sheets(tmp_path)
    assert sorted(path.name for path in people.iterdir()) == [".K3-abcdefgh", ".K4-short", "K2"]
    assert (people / "K2" / "sheet.pdf").read_text() == ".K2-abcdefgh"
