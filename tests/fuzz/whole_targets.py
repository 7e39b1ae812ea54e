"""A whole course in which one file is under trial: read, checked, and made into pages."""

import shutil
from functools import cache, partial
from pathlib import Path

from builder.checks.run import check_course
from builder.publishing.site.edition import make_edition
from builder.reading.course_folder import read_course
from tests.fuzz.course_targets import HEADER_WORDS
from tests.fuzz.desk import SMALL_COURSE, TODAY, open_desk, overwrite_path
from tests.fuzz.kinds import Answer, Target

FEW = 5
"""So many tries of each in the suite, since each makes all pages of a course twice."""


@cache
def _make_project() -> Path:
    """Give a copy of the small course."""
    return shutil.copytree(SMALL_COURSE, open_desk() / "whole")


def build_bytes(within: str, data: bytes) -> Answer:
    """Read and check the small course with one file under trial, and make its pages."""
    root = _make_project()
    path = root / "content" / within
    overwrite_path(path, data)
    try:
        reading = read_course(root, today=TODAY)
        found = check_course(reading.course) if reading.course else ()
        told = (*reading.findings, *found)
        edition = make_edition(reading, "content", ["a6"]).with_findings(told)
    finally:
        overwrite_path(path, _read_original(within))
    shown = {name: text for name, text in edition.files.items() if name.endswith(".md")}
    return Answer((reading.course, shown), told)


def _read_original(within: str) -> bytes:
    return (SMALL_COURSE / "content" / within).read_bytes()


def _list_seeds(within: str) -> tuple[bytes, ...]:
    return (_read_original(within),)


WHOLE_TARGETS = tuple(
    Target(
        f"course-with-{kind}",
        partial(build_bytes, within),
        partial(_list_seeds, within),
        (*HEADER_WORDS, "strands", "[[hand-on-belly]]", "## Steps", "## Set up", "1. ", "- "),
        suite_tries=FEW,
    )
    for kind, within in (
        ("lesson", "lessons/breath/wide-ribs.md"),
        ("notice", "notices/general.md"),
        ("settings", "course.yml"),
        ("page", "index.md"),
    )
)
