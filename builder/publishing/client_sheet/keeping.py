"""Where a person's sheet is kept: one folder a person, written as a whole."""

import shutil
from pathlib import Path

from builder.publishing.client_sheet.making import CALENDAR, SHEET_NAMES, MadeSheet
from builder.work.whole import MARK, replace_folder


def find_sheet_folder(project: Path, person_id: str) -> Path:
    """Return the folder of a person's papers; ids stand in names, never people's own."""
    return project / "coach" / "people" / person_id


def read_earlier_calendar(folder: Path) -> bytes:
    """Return the calendar that was given out before; nothing where there is none."""
    path = folder / CALENDAR
    return path.read_bytes() if path.is_file() else b""


def keep_sheet(folder: Path, made: MadeSheet) -> None:
    """Write sheet and calendar together; an older sheet of either form goes, other files stay."""
    with replace_folder(folder) as fresh:
        own = {*SHEET_NAMES.values(), CALENDAR, MARK}
        others = sorted(folder.iterdir()) if folder.is_dir() else []
        for path in others:
            if path.name not in own:
                copy = shutil.copytree if path.is_dir() else shutil.copy2
                copy(path, fresh / path.name)
        for name, content in made.files.items():
            (fresh / name).write_bytes(content)
