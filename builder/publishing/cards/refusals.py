"""What another checker says of a folder of cards, at the lines of their lessons."""

from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

from builder.course.course import Course
from builder.findings import Finding, sort_findings
from builder.publishing.proof.structure.fault import place_faults
from builder.publishing.proof.structure.verapdf import ACCESSIBLE, ARCHIVAL, ask_verapdf

_NEVER_ARCHIVAL = "sheets"
"""Sheets to cut are for the guillotine, not for an archive."""


def make_archival(course: Course) -> Course:
    """Return a course whose cards and packs are written as PDF/A."""
    return replace(course, settings=replace(course.settings, is_archival=True))


def find_refusals(course: Course, folder: Path, command: str) -> tuple[Finding, ...]:
    """Ask for every PDF of a folder of cards, and return what is refused."""
    return sort_findings(_find_refusals(course, folder, command))


def _find_refusals(course: Course, folder: Path, command: str) -> Iterator[Finding]:
    files = sorted(folder.rglob("*.pdf"))
    asked = {ACCESSIBLE: files}
    if course.settings.is_archival:
        asked[ARCHIVAL] = [path for path in files if path.parent.name != _NEVER_ARCHIVAL]
    for flavour, own in asked.items():
        for refusal in ask_verapdf(command, own, flavour) if own else ():
            lesson = course.by_id.get(refusal.path.stem)
            place = lesson.at("title") if lesson else course.settings.at("title")
            name = refusal.path.relative_to(folder).as_posix()
            yield from place_faults(refusal.faults, name, place)
