"""Where a person's sheet is kept: one folder a person, written as a whole."""

import hashlib
import json
import shutil
from collections.abc import Mapping
from pathlib import Path

from builder.publishing.client_sheet.job import CALENDAR, SHEET_NAMES, MadeSheet
from builder.work.left import mend_folders
from builder.work.whole import MARK, replace_folder

RECORD = ".made.json"
"""From what a sheet was made, and what came out, as digests."""


def find_sheet_folder(project: Path, person_id: str) -> Path:
    """Return the folder of a person's papers; ids stand in names, never people's own."""
    return project / "coach" / "people" / person_id


def mend_sheets(project: Path) -> None:
    """Clear away what a run that was killed left of anybody's papers."""
    mend_folders(find_sheet_folder(project, "-").parent)


def read_earlier_calendar(folder: Path) -> bytes:
    """Return the calendar that was given out before; nothing where there is none."""
    path = folder / CALENDAR
    return path.read_bytes() if path.is_file() else b""


def keep_sheet(folder: Path, made: MadeSheet, key: str = "") -> None:
    """Write sheet and calendar together; an older sheet of either form goes, other files stay.

    ``key`` is a digest of all that the sheet was made from; without one it is made again next time.
    What a killed run left is for ``mend_sheets``, once for all sheets.
    """
    with replace_folder(folder, mends=False) as fresh:
        own = {*SHEET_NAMES.values(), CALENDAR, MARK, RECORD}
        others = sorted(folder.iterdir()) if folder.is_dir() else []
        for path in others:
            if path.name not in own:
                copy = shutil.copytree if path.is_dir() else shutil.copy2
                copy(path, fresh / path.name)
        for name, content in made.files.items():
            (fresh / name).write_bytes(content)
        if key:
            record = json.dumps({"key": key, "files": _digest_all(made.files)})
            (fresh / RECORD).write_text(f"{record}\n", encoding="utf-8")


def is_current(folder: Path, key: str) -> bool:
    """Tell whether what was made from the same things stands in a folder, whole to the byte."""
    try:
        record = json.loads((folder / RECORD).read_text(encoding="utf-8"))
        standing = {name: (folder / name).read_bytes() for name in record["files"]}
    except (OSError, ValueError, TypeError, KeyError):  # none, or one that somebody changed
        return False
    return bool(record == {"key": key, "files": _digest_all(standing)} and standing)


def _digest_all(files: Mapping[str, bytes]) -> dict[str, str]:
    return {name: hashlib.sha256(content).hexdigest() for name, content in files.items()}
