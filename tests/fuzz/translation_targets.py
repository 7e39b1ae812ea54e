"""Files of a translation under trial, and the copies of originals that it is compared with."""

import shutil
from functools import cache, partial
from pathlib import Path

from builder.reading.course_folder import CourseReading, read_course
from builder.reading.translation.kept import name_kept, read_kept, write_kept
from builder.reading.translation.reader import read_translation
from tests.fuzz import finished_seeds
from tests.fuzz.course_targets import HEADER_WORDS
from tests.fuzz.desk import ROOT, SMALL_COURSE, TODAY, open_desk, overwrite_path, read_files
from tests.fuzz.kinds import Answer, Target, count_lines

_SPANISH = ROOT / "tests/small_course_es"
_SCOPE = "languages: {es: {strands: [breath]}}\npaper: a6\n"


@cache
def _make_course() -> tuple[Path, CourseReading]:
    """Give the small course with its first strand in Spanish."""
    root = open_desk() / "spanish"
    shutil.copytree(SMALL_COURSE, root)
    shutil.copytree(_SPANISH, root, dirs_exist_ok=True)
    course = root / "content/course.yml"
    text = course.read_text(encoding="utf-8").replace("paper: a6\n", _SCOPE)
    course.write_text(text, encoding="utf-8")
    return root, read_course(root, today=TODAY)


def read_translated_bytes(within: str, data: bytes) -> Answer:
    """Read a whole language in which one file is under trial."""
    root, reading = _make_course()
    if reading.course is None:
        raise LookupError("the small course can't be read")
    path = root / "content" / within
    before = (_SPANISH / "content" / within).read_bytes()
    overwrite_path(path, data)
    try:
        folders = root, root / "content"
        read = read_translation(folders, reading.course, reading.pages, "es", TODAY)
    finally:
        overwrite_path(path, before)
    own = tuple(each for each in read.findings if each.place.path.endswith(within))
    return Answer((read.course, read.pages), own, count_lines(data))


def read_kept_bytes(data: bytes) -> Answer:
    """Read a kept original, and the language that is compared with it."""
    root, reading = _make_course()
    if reading.course is None:
        raise LookupError("the small course can't be read")
    path = root / "content" / name_kept("lessons/breath/wide-ribs.md", "es")
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_bytes(data)
    folders = root, root / "content"
    read = read_translation(folders, reading.course, reading.pages, "es", TODAY)
    parts = read_kept(path)
    if parts is None:
        return Answer(None, read.findings)

    def again() -> object:
        path.write_bytes(write_kept(parts).encode("utf-8", "surrogatepass"))
        return read_kept(path)

    return Answer(parts, read.findings, None, again, parts)


TRANSLATION_TARGETS = (
    *(
        Target(
            f"translated-{kind}",
            partial(read_translated_bytes, within),
            partial(read_files, within, folder=_SPANISH / "content"),
            (*HEADER_WORDS, "strands", "positions", "caution", "papers", "short", "adapt"),
        )
        for kind, within in (
            ("lesson", "lessons/breath/wide-ribs.es.md"),
            ("notice", "notices/general.es.md"),
            ("course", "course.es.yml"),
            ("page", "glossary.es.md"),
        )
    ),
    Target("kept-original", read_kept_bytes, lambda: (finished_seeds.KEPT,), ("[[", '{"a": []}')),
)
