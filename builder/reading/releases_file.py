"""The ledger of releases, to which `tempoleaf release` adds."""

from datetime import date
from typing import Literal

from builder.course.audience import Audience
from builder.course.release import Ledger, Release
from builder.findings import Finding
from builder.reading.known import HeaderCheck
from builder.reading.part import Part
from builder.reading.scalars import Day, Slug, Text, Version
from builder.reading.validation import read_validated

LEDGER_FILE = "releases.yml"


class ReleasePart(Part):
    """One version of a lesson's card."""

    lesson: Slug
    card: Literal["client", "coach"]
    code: Version
    on: Day
    why: Text


class LedgerFile(Part):
    """The whole file."""

    releases: list[ReleasePart]


def read_ledger(text: str, path: str, today: date) -> tuple[Ledger | None, list[Finding]]:
    """Read the ledger; None with all findings where any part of it is wrong."""
    tree, file, findings = read_validated(text, path, LedgerFile)
    if tree is None or file is None:
        return None, findings
    check = HeaderCheck(tree, path, today)
    for index, part in enumerate(file.releases):
        check.refuse_future(part.on, ("releases", index), "of the release")
    releases = tuple(
        Release(part.lesson, Audience(part.card), part.code, part.on, part.why)
        for part in file.releases
    )
    findings += check.findings
    return (None if findings else Ledger(releases)), findings
