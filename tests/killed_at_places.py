"""Looks at what a kill leaves at each distinct place of the code that changes files.

``tests/killed.py`` goes through every single step of a quick writer; a build has thousands, of
which nearly all come from few lines of code. So a first run notes which line makes each change,
and then each line's first and last change is a try. What a kill leaves is what is on the disk at
that moment and nothing else; so a second run is stopped at each of them for as long as its folders
are copied. One run is killed in earnest, the whole group of processes at once, to show that this
leaves the same. This module as a script is the process of which each run is a fork.
"""

import atexit
import hashlib
import json
import os
import re
import shutil
import signal
import subprocess
import sys
import tempfile
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from importlib import import_module
from pathlib import Path, PurePosixPath
from typing import Any

from builder.work.whole import MARK
from tests.killed import CHANGES, is_read

SWAPS = "whole.py"
"""Where folders change places: each kind of change there is tried in every run."""
LOCK = ".records.lock"
BESIDE = re.compile(r"\..+(-[a-z0-9_]{8}|\.new)")
"""A folder or file beside its place: nobody reads it, and the next run clears it away."""
MEMORY = Path("/dev/shm")  # noqa: S108  # a folder of the test's own is made in it
ROOM_BYTES = 4_000_000_000
LOADED = {
    "build": ("mkdocs_plugin", "publishing.site.cards"),
    "class": ("publishing.class_card.printing",),
    "group": ("publishing.cards.pdf",),
    "sheet": ("publishing.cards.pdf",),
}
"""What a command loads later than at its start."""
Tree = dict[str, bytes]


def run_killed(project: Path, edit: tuple[str, str], *words: str, thorough: bool) -> dict[str, Any]:
    """Run a command, add a text to a file, then look at each place of its next run.

    Says what was wrong. The project is copied; ``edit`` has the file's path in it and the text,
    and a command that has not been run before has an empty one.
    """
    order = json.dumps({"edit": edit, "words": words, "thorough": thorough})
    place = {"PYTHONPATH": str(Path(__file__).parents[1]), "NO_MKDOCS_2_WARNING": "1"}
    has_room = MEMORY.is_dir() and shutil.disk_usage(MEMORY).free > ROOM_BYTES
    with tempfile.TemporaryDirectory(dir=MEMORY if has_room else project.parent) as folder:
        done = subprocess.run(
            [sys.executable, __file__, str(project), folder, order],
            capture_output=True,
            text=True,
            check=False,
            env=os.environ | place,
        )
    assert done.returncode == 0, done.stderr
    found: dict[str, Any] = json.loads(done.stdout)
    return found


@dataclass(frozen=True, slots=True)
class Place:
    """Which step of a run it is, and where in the code."""

    step: int
    event: str
    file: str
    line: int


@dataclass(frozen=True, slots=True)
class Stage:
    """Where a command runs again and again."""

    folder: Path
    words: tuple[str, ...]

    @property
    def work(self) -> Path:
        """Return the project that is worked in."""
        return self.folder / "now" / "work"

    @property
    def scratch(self) -> Path:
        """Return the folder for temporary files."""
        return self.folder / "now" / "scratch"

    @property
    def notes(self) -> Path:
        """Return the file in which a run notes its steps."""
        return self.folder / "notes.json"

    def read_said(self) -> str:
        """Return what the last run said."""
        return Path(f"{self.notes}.said").read_text(encoding="utf-8")

    def keep(self, name: str) -> Path:
        """Copy project and temporary files as they are; return where they are kept."""
        kept = self.folder / name
        shutil.copytree(self.work.parent, kept, symlinks=True)
        return kept

    def put_back(self, kept: Path) -> None:
        """Give the project and its temporary files the place of what was kept of them."""
        shutil.rmtree(self.work.parent)
        kept.rename(self.work.parent)

    def look(self) -> Tree:
        """Return every file and every empty folder of the project but its cache."""
        tree: Tree = {}
        for folder, folders, names in os.walk(self.work):
            folders[:] = [name for name in folders if name != ".cache"]
            at = Path(folder).relative_to(self.work)
            tree |= {
                (at / name).as_posix(): Path(folder, name).read_bytes()
                for name in names
                if name != LOCK
            }
            if not (folders or names):
                tree[f"{at.as_posix()}/"] = b""
        return tree

    def digest(self) -> str:
        """Return a digest of all that a kill leaves."""
        whole = hashlib.sha256()
        for folder, folders, names in os.walk(self.work.parent):
            folders.sort()
            for path in (Path(folder, name) for name in sorted(names)):
                whole.update(f"{path} {path.stat().st_size} ".encode() + path.read_bytes())
            whole.update(f"{folder}\n".encode())
        return whole.hexdigest()

    def run(self, *, stops: Mapping[int, str] | None = None, kill_at: int = 0) -> int:
        """Run the command in processes of their own; return how it ended.

        ``stops`` has the steps before which all is kept, each with its name.
        """
        child = os.fork()
        if child == 0:
            os.setpgid(0, 0)
            os.chdir(self.work)
            tempfile.tempdir = os.environ["TMPDIR"] = str(self.scratch)
            quiet = os.open(f"{self.notes}.said", os.O_WRONLY | os.O_CREAT | os.O_TRUNC)
            os.dup2(quiet, 1)
            os.dup2(quiet, 2)
            Run(self, stops or {}, kill_at).work()
        return os.waitpid(child, 0)[1]


@dataclass(slots=True)
class Run:
    """One run of a command, in a process that ends with it."""

    stage: Stage
    stops: Mapping[int, str]
    kill_at: int
    seen: list[tuple[str, str, int]] = field(default_factory=list)
    _own: int = field(default_factory=os.getpid)
    _is_keeping: bool = False

    def work(self) -> None:
        """Run it to its end, and note its steps."""
        from builder.cli.app import main  # noqa: PLC0415  # the tests' own process needs none of it

        code = 70
        sys.addaudithook(self._hear)
        sys.argv = ["tempoleaf", *self.stage.words]
        try:
            main()
            code = 0
        except SystemExit as end:
            code = int(end.code or 0)
        finally:
            atexit._run_exitfuncs()  # as at the end of any process; folders for a run go here
            self._is_keeping = True
            self.stage.notes.write_text(json.dumps(self.seen), encoding="utf-8")
            os._exit(code)

    def _hear(self, event: str, told: tuple[object, ...]) -> None:
        is_change = event in CHANGES and (event != "open" or not is_read(told))
        if not (is_change or event == "fcntl.flock") or self._is_keeping:
            return
        if os.getpid() != self._own:
            return
        self.seen.append((event, *find_line()))
        if len(self.seen) == self.kill_at:
            os.killpg(0, signal.SIGKILL)
        name = self.stops.get(len(self.seen))
        if name:
            self._is_keeping = True
            kept = self.stage.keep(name)
            if event == "open" and is_emptied(told):
                self._open_there(kept, Path(str(told[0])).absolute())
            self._is_keeping = False

    def _open_there(self, kept: Path, path: Path) -> None:
        """Leave a file as it is when it was opened and nothing is written yet."""
        if path.is_relative_to(self.stage.work.parent):
            (kept / path.relative_to(self.stage.work.parent)).write_bytes(b"")


def is_emptied(told: tuple[object, ...]) -> bool:
    """Tell whether a file is new or empty once it is opened so, by its mode or else its flags."""
    _, mode, flags = told
    if isinstance(mode, str):
        return bool(set(mode) & set("wx"))
    return isinstance(flags, int) and bool(flags & (os.O_TRUNC | os.O_EXCL))


def find_line() -> tuple[str, int]:
    """Return the file and line of the tool, or of its host, that is at work."""
    frame = sys._getframe(2)
    while frame.f_back:
        path = frame.f_code.co_filename
        if "/builder/" in path or "/mkdocs/" in path:
            return Path(path).name, frame.f_lineno
        frame = frame.f_back
    return "", 0


def choose(seen: Sequence[tuple[str, str, int]], *, thorough: bool) -> tuple[Place, ...]:
    """Choose the tries: each line's first and last change, or one for each file of code."""
    places = [Place(step, *told) for step, told in enumerate(seen, 1)]
    if thorough:
        firsts = {(place.event, place.file, place.line): place for place in reversed(places)}
        lasts = {(place.event, place.file, place.line): place for place in places}
        return tuple(sorted({*firsts.values(), *lasts.values()}, key=lambda place: place.step))
    found: dict[tuple[str, str], Place] = {}
    for place in places:
        found.setdefault((place.event if place.file == SWAPS else "", place.file), place)
    return tuple(found.values())


def tell_mix(left: Tree, old: Tree, new: Tree) -> str:
    """Name what is neither as before nor as after: a file, or a folder that is replaced whole."""
    whole = {name.rpartition("/")[0] for name in (*old, *new) if PurePosixPath(name).name == MARK}
    trees = [part(strip(tree), whole) for tree in (left, old, new)]
    for unit in sorted(set().union(*trees)):
        found, before, after = (tree.get(unit) for tree in trees)
        if found not in (before, after):
            return unit
    return ""


def part(tree: Tree, whole: set[str]) -> dict[str, Tree]:
    """Put the files of each folder that is replaced whole together."""
    parts: dict[str, Tree] = {}
    for name, content in tree.items():
        within = (str(folder) for folder in PurePosixPath(name).parents)
        parts.setdefault(next((at for at in within if at in whole), name), {})[name] = content
    return parts


def strip(tree: Tree) -> Tree:
    """Leave out folders and files beside their place, and folders that are empty."""
    return {name: content for name, content in tree.items() if not is_beside(name)}


def is_beside(name: str) -> bool:
    """Tell whether nobody reads what has this name."""
    return name.endswith("/") or any(BESIDE.fullmatch(at) for at in PurePosixPath(name).parts)


def tell_other(left: Mapping[str, bytes], right: Mapping[str, bytes]) -> str:
    """Name the first file in which two trees differ."""
    return next((n for n in sorted({*left, *right}) if left.get(n) != right.get(n)), "")


def set_up(stage: Stage, project: Path, edit: tuple[str, str]) -> None:
    """Copy a project and make it one in which the command has work to do."""
    shutil.copytree(project, stage.work, symlinks=True)
    stage.scratch.mkdir()
    if edit[0]:
        assert stage.run() == 0, stage.read_said()
        with (stage.work / edit[0]).open("a", encoding="utf-8") as file:
            file.write(edit[1])


def find_wrong(stage: Stage, old: Tree, new: Tree) -> Iterator[str]:
    """Yield what is wrong with what is left, and with what the next run makes of it."""
    mix = tell_mix(stage.look(), old, new)
    if mix:
        yield f"{mix} is of both"
    ended = stage.run()
    other = tell_other(stage.look(), new)
    left = sorted(path.name for path in stage.scratch.iterdir())
    if ended or other or left:
        said = stage.read_said()[-300:]
        yield f"the next run ended {ended}, {other} differs, left {left}; {said}"


def look_at_each_place(stage: Stage, *, thorough: bool) -> dict[str, Any]:
    """Try each place of the command's run, and let it run once more after each."""
    start, again = stage.keep("start"), stage.keep("again")
    old = stage.look()
    assert stage.run() == 0, stage.read_said()
    new = stage.look()
    places = choose(json.loads(stage.notes.read_text(encoding="utf-8")), thorough=thorough)
    stage.put_back(start)
    stage.run(stops={place.step: str(place.step) for place in places})
    faults: list[str] = []
    tried: dict[str, Tree] = {}
    for place in places:
        stage.put_back(stage.folder / str(place.step))
        state = stage.digest()
        if state not in tried:
            tried[state] = stage.look()
            faults += [f"{place}: {wrong}" for wrong in find_wrong(stage, old, new)]
    last = next(place for place in reversed(places) if place.event != "open")
    stage.put_back(again)
    if not os.WIFSIGNALED(stage.run(kill_at=last.step)) or strip(stage.look()) != strip(
        tried[state]
    ):
        faults.append(f"{last}: a kill leaves something else")
    faults += [f"{last}, killed: {wrong}" for wrong in find_wrong(stage, old, new)]
    return {"tries": len(tried), "changed": tell_other(old, new), "faults": faults}


def load(word: str) -> None:
    """Load once, before the forks, what a command loads when it is asked for."""
    import_module(f"builder.cli.{word}_command")
    for name in LOADED.get(word, ()):
        import_module(f"builder.{name}")


if __name__ == "__main__":
    asked = json.loads(sys.argv[3])
    stage = Stage(Path(sys.argv[2]), tuple(asked["words"]))
    load(stage.words[0])
    set_up(stage, Path(sys.argv[1]), tuple(asked["edit"]))
    sys.stdout.write(json.dumps(look_at_each_place(stage, thorough=asked["thorough"])))
