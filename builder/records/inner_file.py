"""Text files inside a program folder, and how findings write their paths."""

from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

from builder import rules
from builder.errors import BuilderError
from builder.findings import Finding, Place
from builder.reading.text_file import read_text

ENDING = ".yml"
_UNNOTICED = frozenset({"thumbs.db", "desktop.ini"})


def open_text(program: Path, path: Path) -> tuple[str | None, list[Finding]]:
    """Read a text file of a program folder; places begin with the folder's own name.

    BuilderError where the file lies elsewhere.
    """
    root, shown = program.resolve(), show_inner_path(program, path)
    text, findings = read_text(root, root / _place_inside(program, path))
    return text, [
        each.rule.at(replace(each.place, path=shown), each.fact, each.cure) for each in findings
    ]


def show_inner_path(program: Path, path: Path) -> str:
    """Return how a file inside a program folder is written: the folder's name, then the rest."""
    return f"{program.absolute().name}/{_place_inside(program, path).as_posix()}"


def list_inner_files(program: Path, name: str) -> tuple[tuple[Path, ...], list[Finding]]:
    """Return the files of one folder in a program folder; what nobody reads is a finding."""
    folder = program / name
    try:
        found = sorted(folder.iterdir()) if folder.is_dir() else []
    except OSError as error:
        fact = f"the folder can't be opened ({error.strerror})"
        place = Place(show_inner_path(program, folder))
        return (), [rules.TEXT_UNREADABLE.at(place, fact, "check that it may be read")]
    kept = tuple(_without_hidden(found))
    strays = [path for path in kept if path.suffix != ENDING or path.is_dir()]
    return tuple(path for path in kept if path not in strays), [
        _tell_stray(program, path) for path in strays
    ]


def _without_hidden(paths: list[Path]) -> Iterator[Path]:
    for path in paths:
        if not path.name.startswith(".") and path.name.lower() not in _UNNOTICED:
            yield path


def _tell_stray(program: Path, path: Path) -> Finding:
    fact = f'nobody reads "{path.name}", because it is no file that ends in {ENDING}'
    place = Place(show_inner_path(program, path))
    return rules.FILE_MISPLACED.at(place, fact, "give it that ending, or take it away")


def _place_inside(program: Path, path: Path) -> Path:
    """Return a path from the program folder; a link is taken as it stands, wherever it leads."""
    inside = path.parent.resolve() / path.name
    if not inside.is_relative_to(program.resolve()):
        raise BuilderError(
            f'"{path}" is not in the program folder "{program}"', "move it there, or give its own"
        )
    return inside.relative_to(program.resolve())
