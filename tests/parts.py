"""Writes the list of the tool's own templates, styles and fonts anew.

After a change of any of them: ``PYTHONPATH=. .venv/bin/python tests/parts.py``. Without it the tool
refuses to make anything, since what isn't as it was released could lack a caution.
"""

import hashlib
from pathlib import Path

from builder.resources import PARTS

TEMPLATES = Path(__file__).parents[1] / "site_templates"


def write_parts(folder: Path) -> str:
    """Return the list of a templates folder's files."""
    names = sorted(path.relative_to(folder).as_posix() for path in _list_files(folder))
    lines = (
        f"{hashlib.sha256((folder / name).read_bytes()).hexdigest()}  {name}" for name in names
    )
    return "\n".join((*lines, ""))


def renew_parts(folder: Path) -> None:
    """Write the list of a templates folder as it is now."""
    (folder / PARTS).write_text(write_parts(folder), encoding="utf-8")


def _list_files(folder: Path) -> list[Path]:
    return [path for path in folder.rglob("*") if path.is_file() and path.name != PARTS]


if __name__ == "__main__":
    renew_parts(TEMPLATES)
