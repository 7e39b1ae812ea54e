"""Where readers under trial find their files: a course, and a folder for the file in question."""

import atexit
import os
import shutil
import tempfile
from dataclasses import replace
from datetime import date
from functools import cache
from pathlib import Path

from builder.course.course import Course
from builder.reading.course_file import CourseFrame
from builder.reading.course_folder import CourseReading, read_course
from builder.reading.folder_reader import FolderReader
from builder.records.known import Known
from builder.records.record_folder import read_people

ROOT = Path(__file__).parents[2]
CASES = Path(__file__).with_name("cases")
PROGRAM = ROOT / "demo_program"
SMALL_COURSE = ROOT / "tests/small_course"
TODAY = date(2026, 11, 27)
"""A fixed day, so that the same bytes are told the same on any day."""


@cache
def open_desk() -> Path:
    """Give a folder that is gone when the process ends, in memory where the machine has that."""
    memory = Path("/dev/shm")  # noqa: S108  # the folder made in it has a name of its own
    folder = Path(tempfile.mkdtemp(prefix="fuzz-", dir=memory if memory.is_dir() else None))
    atexit.register(shutil.rmtree, folder, ignore_errors=True)
    return folder


def lay(name: str, data: bytes) -> Path:
    """Put a file under trial on the desk."""
    path = open_desk() / name
    overwrite_path(path, data)
    return path


def overwrite_path(path: Path, data: bytes) -> None:
    """Put bytes in place of all that a file holds."""
    overwrite(_open_once(path), data)


@cache
def _open_once(path: Path) -> int:
    """Open a file to be overwritten again and again, which is faster than opening it anew."""
    path.parent.mkdir(parents=True, exist_ok=True)
    return os.open(path, os.O_RDWR | os.O_CREAT)


def overwrite(file: int, data: bytes) -> None:
    """Put bytes in place of all that an open file holds."""
    os.ftruncate(file, 0)
    os.pwrite(file, data, 0)


def read_files(*patterns: str, folder: Path = ROOT) -> tuple[bytes, ...]:
    """Return real files of this project, in a fixed order."""
    paths = [path for pattern in patterns for path in sorted(folder.glob(pattern))]
    return tuple(path.read_bytes() for path in paths)


@cache
def open_course() -> CourseReading:
    """Read the course that comes with the tool."""
    return read_course(ROOT, today=TODAY)


@cache
def give_course() -> Course:
    """Return that course."""
    course = open_course().course
    if course is None:
        raise LookupError("the course in content/ can't be read")
    return course


@cache
def give_frame() -> CourseFrame:
    """Return what its course file says."""
    frame = FolderReader(ROOT, ROOT / "content", TODAY, []).read_frame()
    if frame is None:
        raise LookupError("content/course.yml can't be read")
    return frame


@cache
def give_known() -> Known:
    """Return the people of the demo program."""
    known, _ = read_people(PROGRAM, give_course(), TODAY)
    return replace(known, unreadable_people=frozenset({"C99"}))
