"""Names of files that begin with a day: ``2026-11-24-tuesday.yml``."""

import re
from dataclasses import dataclass
from datetime import date
from pathlib import PurePosixPath

from builder import rules
from builder.findings import Finding, Place
from builder.reading.scalars import LONGEST_ID

YEARS = (2000, 2199)
"""Beyond them a year is a slip of the pen (ours)."""
_NAME = re.compile(r"([0-9]{4}-[0-9]{2}-[0-9]{2})-([a-z0-9]+(?:-[a-z0-9]+)*)")
"""Small letters, so that no two names are one on a system that takes them alike; a name that
begins with a day is none of those that Windows keeps for itself."""


@dataclass(frozen=True, slots=True)
class DatedName:
    """What a file's name says."""

    day: date
    name: str


def read_dated_name(path: str) -> tuple[DatedName | None, list[Finding]]:
    """Read the day and the name off a file's path."""
    stem, place = PurePosixPath(path).stem, Place(path)
    parts = _NAME.fullmatch(stem)
    if parts is None or len(parts[2]) > LONGEST_ID:
        fact = f'the file name "{stem}" is no day with a name'
        cure = (
            "name it such as 2026-11-24-tuesday.yml, in small letters, digits and single hyphens, "
            f"with {LONGEST_ID} at most after the day"
        )
        return None, [rules.ID_MALFORMED.at(place, fact, cure)]
    day = _read_day(parts[1])
    if day is None:
        fact = f'"{parts[1]}" in the file name is no day from {YEARS[0]} to {YEARS[1]}'
        cure = "give it a day of the calendar, such as 2026-11-24"
        return None, [rules.VALUE_OUT_OF_RANGE.at(place, fact, cure)]
    return DatedName(day, parts[2]), []


def _read_day(text: str) -> date | None:
    try:
        day = date.fromisoformat(text)
    except ValueError:
        return None
    return day if YEARS[0] <= day.year <= YEARS[1] else None
