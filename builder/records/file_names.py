"""Names of files: made of ids, so that no folder's list tells who comes."""

import re
from pathlib import Path

from builder.records.known import Known
from builder.records.person import Person

_UNFIT = re.compile(r"[^A-Za-z0-9]+")
_LONGEST = 40
_SHORT = 2
"""Parts of names up to this long stand in many words by chance."""


def name_file_for(person: Person, what: str, ending: str) -> str:
    """Return the name of a file about a person, such as ``p-01-plan.pdf``; never their own name."""
    return f"{person.id}-{what}{ending}"


def name_kept_file(file: Path, known: Known) -> str:
    """Return the first part of a name for rows of a file; ``export`` where it names a person."""
    stem = _UNFIT.sub("-", file.stem).strip("-")[:_LONGEST].strip("-")
    parts = {part for person in known.people.values() for part in _split(person.name)}
    words = _split(stem)
    is_personal = any(
        part in word if len(part) > _SHORT else part == word for part in parts for word in words
    )
    return "export" if is_personal or not stem else stem


def _split(name: str) -> list[str]:
    return _UNFIT.sub(" ", name.casefold()).split()
