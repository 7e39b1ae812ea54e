"""A course that strangers wrote: the small course with whatever a test puts into it."""

from collections.abc import Iterable
from pathlib import Path

from tests.conftest import copy_small_course
from tests.trust.vectors import Vector

UNTRUSTED = "trust: untrusted\n"


def write_hostile(root: Path, vectors: Iterable[Vector], first_line: str = UNTRUSTED) -> Path:
    """Copy the small course, say how far it is trusted, and lay files into it."""
    project = copy_small_course(root)
    course = project / "content/course.yml"
    course.write_text(first_line + course.read_text(encoding="utf-8"), encoding="utf-8")
    for vector in vectors:
        content = vector.content
        path = project / vector.file
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_bytes(content if isinstance(content, bytes) else content.encode())
    return project


def replace_in(project: Path, file: str, old: str, new: str) -> None:
    """Put other words into a file of a course."""
    path = project / file
    text = path.read_text(encoding="utf-8")
    assert old in text
    path.write_text(text.replace(old, new, 1), encoding="utf-8")
