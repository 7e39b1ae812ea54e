"""Kills a command at each distinct place of the code that changes files, and looks at what is left.

``tests/killed.py`` goes through every single step of a quick writer; a build has thousands, of
which nearly all come from few lines of code. So a first run notes which line makes each change,
and then each line's first and last change is a try. The whole group of processes is killed at
once, as by a power cut. This module as a script is the process of which each try is a fork.
"""

import atexit
import json
import os
import shutil
import signal
import subprocess
import sys
import tempfile
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from tests.killed import CHANGES, is_read

SWAPS = "whole.py"
"""Where folders change places: each kind of change there is tried in every run."""
Tree = dict[str, bytes]


def run_killed(project: Path, edit: tuple[str, str], *words: str, thorough: bool) -> dict[str, Any]:
    """Run a command, add a text to a file, then run it killed at each place; say what was wrong.

    The project is copied; ``edit`` has the file's path in it and the text.
    """
    order = json.dumps({"edit": edit, "words": words, "thorough": thorough})
    place = {"PYTHONPATH": str(Path(__file__).parents[1]), "NO_MKDOCS_2_WARNING": "1"}
    done = subprocess.run(
        [sys.executable, __file__, str(project), order],
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

    project: Path
    words: tuple[str, ...]

    @property
    def work(self) -> Path:
        """Return the project that is worked in."""
        return self.project.with_name("work")

    @property
    def scratch(self) -> Path:
        """Return the folder for temporary files."""
        return self.project.with_name("scratch")

    @property
    def notes(self) -> Path:
        """Return the file in which a run notes its steps."""
        return self.project.with_name("notes.json")

    def start_anew(self, source: Path) -> None:
        """Put the project back as it was, and empty the folder for temporary files."""
        for folder in (self.work, self.scratch):
            shutil.rmtree(folder, ignore_errors=True)
        shutil.copytree(source, self.work, symlinks=True)
        self.scratch.mkdir()

    def look(self) -> Tree:
        """Return every file and every empty folder of the project but its cache."""
        tree: Tree = {}
        for folder, folders, names in os.walk(self.work):
            folders[:] = [name for name in folders if name != ".cache"]
            at = os.path.relpath(folder, self.work)
            tree |= {f"{at}/{name}": Path(folder, name).read_bytes() for name in names}
            if not (folders or names):
                tree[f"{at}/"] = b""
        return tree

    def run(self, kill_at: int = 0) -> int:
        """Run the command in processes of their own, killed before a step; return how it ended."""
        child = os.fork()
        if child == 0:
            os.setpgid(0, 0)
            os.chdir(self.work)
            tempfile.tempdir = os.environ["TMPDIR"] = str(self.scratch)
            quiet = os.open(f"{self.notes}.said", os.O_WRONLY | os.O_CREAT | os.O_TRUNC)
            os.dup2(quiet, 1)
            os.dup2(quiet, 2)
            self._work(kill_at)
        return os.waitpid(child, 0)[1]

    def _work(self, kill_at: int) -> None:
        from builder.cli.app import main  # noqa: PLC0415  # the tests' own process needs none of it

        code = 70
        seen: list[tuple[str, str, int]] = []
        own = os.getpid()

        def hear(event: str, told: tuple[object, ...]) -> None:
            is_change = event in CHANGES and (event != "open" or not is_read(told))
            if (is_change or event == "fcntl.flock") and os.getpid() == own:
                seen.append((event, *find_line()))
                if len(seen) == kill_at:
                    os.killpg(0, signal.SIGKILL)

        sys.addaudithook(hear)
        sys.argv = ["tempoleaf", *self.words]
        try:
            main()
            code = 0
        except SystemExit as end:
            code = int(end.code or 0)
        finally:
            atexit._run_exitfuncs()  # as at the end of any process; folders for a run go here
            self.notes.write_text(json.dumps(seen), encoding="utf-8")
            os._exit(code)


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
    """Say what is neither as before nor as after; folders beside the site don't count."""
    mixed = [tell_other(strip(left), strip(tree)) for tree in (old, new)]
    return "" if "" in mixed else " / ".join(mixed)


def strip(tree: Tree) -> Tree:
    """Leave out folders beside the site: nobody reads them, and the next run clears them away."""
    return {name: text for name, text in tree.items() if not name.startswith(".site-")}


def tell_other(left: Mapping[str, bytes], right: Mapping[str, bytes]) -> str:
    """Name the first file in which two trees differ."""
    return next((n for n in sorted({*left, *right}) if left.get(n) != right.get(n)), "")


def kill_at_each_place(stage: Stage, edit: tuple[str, str], *, thorough: bool) -> dict[str, Any]:
    """Kill the command at each place in turn, and let it run once more after each."""
    stage.start_anew(stage.project)
    assert stage.run() == 0, Path(f"{stage.notes}.said").read_text()
    with (stage.work / edit[0]).open("a", encoding="utf-8") as file:
        file.write(edit[1])
    kept = stage.work.rename(stage.project.with_name("kept"))
    stage.start_anew(kept)
    old = stage.look()
    assert stage.run() == 0, Path(f"{stage.notes}.said").read_text()
    new = stage.look()
    places = choose(json.loads(stage.notes.read_text(encoding="utf-8")), thorough=thorough)
    faults: list[str] = []
    for place in places:
        stage.start_anew(kept)
        if not os.WIFSIGNALED(stage.run(place.step)):
            faults.append(f"{place}: not killed")
        faults += [
            f"{place}: {mix} is of both" for mix in [tell_mix(stage.look(), old, new)] if mix
        ]
        ended = stage.run()
        other, scratch = (
            tell_other(stage.look(), new),
            [path.name for path in stage.scratch.iterdir()],
        )
        if ended or other or scratch:
            faults.append(f"{place}: the next run ended {ended}, {other} differs, left {scratch}")
    return {"tries": len(places), "changed": tell_other(old, new), "faults": faults}


if __name__ == "__main__":
    import builder.cli.build_command
    import builder.cli.cards_command
    import builder.mkdocs_plugin
    import builder.publishing.site.cards  # noqa: F401  # loaded once, before the forks

    asked = json.loads(sys.argv[2])
    tried = kill_at_each_place(
        Stage(Path(sys.argv[1]), tuple(asked["words"])),
        tuple(asked["edit"]),
        thorough=asked["thorough"],
    )
    sys.stdout.write(json.dumps(tried))
