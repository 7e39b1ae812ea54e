"""The same course makes the same bytes, wherever and whenever it is built, and by whom.

Builds run in processes of their own, because what is varied is read once when Python starts.
"""

import json
import os
import subprocess
import sys
from collections.abc import Mapping
from pathlib import Path

import pytest

from tests.conftest import copy_small_course
from tests.made_once import A6_ONLY

RUN = """
import json, sys
from builder.cli.app import main
for words in json.loads(sys.argv[1]):
    sys.argv = ["tempoleaf", *words]
    try:
        main()
    except SystemExit as end:
        if end.code:
            raise
"""
SITE = ("build", "--quiet")
CLASS = "2026-09-22-early.yml"
ON = ("--on", "2026-09-15")
CALLS = (
    (*SITE, "--zip", "course.zip"),
    (*SITE, "--plain", "plain"),
    ("cards", "--quiet", "--coach", "--sheets", "--packs"),
    ("weeks", "courses/2026-12-01-winter.yml", "--write", *ON),
    ("class", f"classes/{CLASS}", "--print", "--quiet"),
    ("sheet", "--all", "--quiet", "--at", "08:00", *ON),
    ("group", *ON),
)
PROGRAM = {
    "people.csv": "id,display name,conditions\nR1,Rosa,\nP2,Pim,high-blood-pressure\n",
    "attendance.csv": "date,person,lesson,outcome\n2026-09-07,R1,hand-on-belly,ready\n",
    f"classes/{CLASS}": "people: [R1, P2]\nminutes: 45\n",
    "courses/2026-12-01-winter.yml": (
        "people: [R1]\nweeks: 2\nweekdays: [tue]\nminutes: 45\naim: [short-hold]\n"
    ),
}
# Between these two it is never the same day.
HERE = {"TZ": "Etc/GMT+12", "LC_ALL": "C", "PYTHONHASHSEED": "1"}
THERE = {"TZ": "Pacific/Kiritimati", "LC_ALL": "C.UTF-8", "LANG": "de_DE", "PYTHONHASHSEED": "77"}
EPOCH = "4102444800"
"""After today, as where a clock was set back."""


def make(
    project: Path,
    variables: Mapping[str, str],
    *,
    umask: int,
    cores: int,
    calls: tuple[tuple[str, ...], ...] = CALLS,
) -> dict[str, bytes]:
    """Run commands under some circumstances; return every file that stands then but the cache."""

    def settle() -> None:
        os.umask(umask)
        if hasattr(os, "sched_setaffinity"):
            os.sched_setaffinity(0, sorted(os.sched_getaffinity(0))[:cores])

    done = subprocess.run(
        [sys.executable, "-c", RUN, json.dumps(calls)],
        cwd=project,
        env=os.environ | {"PYTHONPATH": str(Path(__file__).parents[1]), **variables},
        preexec_fn=settle,
        capture_output=True,
        text=True,
        check=False,
    )
    assert done.returncode == 0, done.stdout + done.stderr
    names = (path.relative_to(project) for path in sorted(project.rglob("*")) if path.is_file())
    made = [name for name in names if name.parts[0] != ".cache"]
    return {name.as_posix(): (project / name).read_bytes() for name in made}


def copy_course(folder: Path) -> Path:
    copy_small_course(folder)
    (folder / "mkdocs.yml").write_text(A6_ONLY, encoding="utf-8")
    for name, text in PROGRAM.items():
        (folder / "program" / name).parent.mkdir(parents=True, exist_ok=True)
        (folder / "program" / name).write_text(text, encoding="utf-8")
    for path in folder.rglob("*"):
        os.utime(path, (4_000_000_000, 4_000_000_000))  # a clock that was set back since
    return folder


def find_differences(one: Mapping[str, bytes], other: Mapping[str, bytes]) -> list[str]:
    return [name for name in sorted({*one, *other}) if one.get(name) != other.get(name)]


@pytest.mark.skipif(sys.platform == "win32", reason="masks and cores are set before the run")
def test_place_time_language_hashes_rights_cores_and_cache_change_no_byte(tmp_path: Path) -> None:
    first = make(copy_course(tmp_path / "a"), HERE, umask=0o022, cores=8)
    other_place = tmp_path / "ein längerer Weg mit Leerzeichen" / "und tiefer" / "projekt"
    second = make(copy_course(other_place), THERE, umask=0o077, cores=1)
    assert find_differences(first, second) == []
    again = make(other_place, HERE, umask=0o022, cores=8)  # with what the cache has kept
    assert find_differences(first, again) == []
    kinds = {Path(name).suffix for name in first}
    assert kinds > {".html", ".pdf", ".epub", ".flac", ".gz", ".ics", ".js", ".json", ".md", ".zip"}
    made = Path("coach/classes/2026-09-22-early")
    names = {f"{made}/card.pdf", f"{made}/screen.html", "coach/people/P2/sheet.pdf"}
    assert names <= set(first)
    clock = {**THERE, "SOURCE_DATE_EPOCH": EPOCH}
    dated = make(other_place, clock, umask=0o022, cores=8, calls=(SITE,))
    # The book names its time; lists of files, and the proof, name the book's bytes.
    others = (".epub", ".zip", "service_worker.js", ".json", "/proof/index.html")
    assert [name for name in find_differences(first, dated) if not name.endswith(others)] == []
