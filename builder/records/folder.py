"""The program folder: where a studio keeps its people, apart from what it publishes."""

from pathlib import Path

from builder.errors import BuilderError
from builder.records.table_file import CSV, SPREADSHEET

PEOPLE = "people"
RESULTS = "results"
ATTENDANCE = "attendance"
CLASSES = "classes"
COACH = "coach"
"""Beside the program folder: what was printed for coaches."""


def find_program_folder(project: Path, given: Path | None = None) -> Path:
    """Return the folder that was given, or the only one of a project that holds people and classes.

    BuilderError where it holds no people, or where none or several could be meant.
    """
    if given is not None:
        if not _has_people(given):
            raise BuilderError(
                f'"{given}" holds no people{CSV}', "give the folder in which that file is"
            )
        return given
    try:
        found = [folder for folder in sorted(project.iterdir()) if _is_program(folder)]
    except OSError as error:
        cure = "name the folder that holds content/"
        raise BuilderError(f'"{project}" can\'t be read ({error.strerror})', cure) from error
    if not found:
        raise BuilderError(
            f'no folder in "{project}" holds people{CSV} and {CLASSES}/',
            "make one, such as program/, or give another with --program",
        )
    if len(found) > 1:
        names = " and ".join(f'"{folder.name}"' for folder in found)
        raise BuilderError(f"{names} each hold people", "say which with --program")
    return found[0]


def find_program_folders(project: Path) -> tuple[Path, ...]:
    """Return every folder of a project that holds people, whatever else it lacks."""
    folders = sorted(path for path in project.iterdir() if path.is_dir())
    return tuple(each for each in folders if not each.name.startswith(".") and _has_people(each))


def _is_program(folder: Path) -> bool:
    if folder.name.startswith(".") or not folder.is_dir():
        return False
    return _has_people(folder) and (folder / CLASSES).is_dir()


def _has_people(folder: Path) -> bool:
    return any((folder / f"{PEOPLE}{ending}").is_file() for ending in (CSV, SPREADSHEET))
