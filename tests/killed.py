"""Runs a command again and again, killed one step later each time, and looks at what is left.

A step is whatever changes the watched folders: a file opened to be written, made sure of, moved or
removed, a folder made, a lock taken. Each run is a fork of one process of its own, so that nothing
is loaded again; that process is this module as a script.
"""

import json
import os
import shutil
import signal
import subprocess
import sys
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from pathlib import Path
from types import FrameType
from typing import Any

import builder.cli.forget_command
import builder.cli.record_command
import builder.cli.unlock_command  # noqa: F401  # loaded once, before the forks
from builder.cli.app import main

WRITES = {"write", "flush", "fsync", "close", "truncate"}
CHANGES = {"open", "os.rename", "os.remove", "os.mkdir", "os.rmdir", "os.chmod"}
LOCK = ".records.lock"


def run_killed(folders: str, project: Path, *words: str, **variables: str) -> dict[str, Any]:
    """Run a command killed at each step; say how often, what was wrong and which files it ends in.

    ``folders`` are those of the project in which the command works, with commas between.
    """
    command = [sys.executable, __file__, folders, str(project), *words]
    place = {"PYTHONPATH": str(Path(__file__).parents[1])}
    done = subprocess.run(
        command, capture_output=True, text=True, check=True, env=os.environ | place | variables
    )
    found: dict[str, Any] = json.loads(done.stdout)
    return found


@dataclass(frozen=True, slots=True)
class Stage:
    """Where a command is killed."""

    folders: tuple[str, ...]
    project: Path
    words: tuple[str, ...]

    @property
    def kept(self) -> Path:
        """Where the folders are kept as they were."""
        return self.project.with_name("kept")

    def look(self) -> dict[str, bytes]:
        """Return every file of the folders with its bytes."""
        return {
            str(path.relative_to(self.project)): path.read_bytes()
            for name in self.folders
            for path in sorted((self.project / name).rglob("*"))
            if path.is_file() and path.name != LOCK
        }

    def start_anew(self) -> None:
        """Put the folders back as they were."""
        for name in self.folders:
            shutil.rmtree(self.project / name, ignore_errors=True)
            shutil.copytree(self.kept / name, self.project / name)

    def run(self, last: int) -> bool:
        """Run the command in a process of its own; tell whether it was killed at its step."""
        child = os.fork()
        if child == 0:
            quiet = os.open(os.devnull, os.O_WRONLY)
            os.dup2(quiet, 1)
            os.dup2(quiet, 2)
            self.count_to(last)
            try:
                self.work()
            finally:
                os._exit(0)
        return os.WIFSIGNALED(os.waitpid(child, 0)[1])

    def work(self) -> None:
        """Run the command."""
        sys.argv = ["tempoleaf", *self.words]
        main()

    def count_to(self, last: int) -> None:
        """Have this process killed before its given step."""
        steps = [0]

        def count() -> None:
            steps[0] += 1
            if steps[0] == last:
                os.kill(os.getpid(), signal.SIGKILL)

        def hear(event: str, words: tuple[object, ...]) -> None:
            touches = any(str(self.project / name) in str(words) for name in self.folders)
            is_change = event in CHANGES and (event != "open" or not is_read(words))
            if (touches and is_change) or event == "fcntl.flock":
                count()

        def watch(_frame: FrameType, event: str, called: object) -> None:
            if event == "c_call" and getattr(called, "__name__", "") in WRITES:
                count()

        sys.addaudithook(hear)
        sys.setprofile(watch)


def is_read(words: tuple[object, ...]) -> bool:
    """Tell whether a file is opened to be read only, by its mode or else by its flags."""
    _, mode, flags = words
    if isinstance(mode, str):
        return not set(mode) & set("wax+")
    return isinstance(flags, int) and not flags & (os.O_WRONLY | os.O_RDWR)


def find_faults(
    left: Mapping[str, bytes], old: Mapping[str, bytes], new: Mapping[str, bytes]
) -> Iterator[str]:
    """Yield what a killed run left that is neither old nor new, and what was lost.

    A dot before its name, or its folder's, says that a file doesn't count yet.
    """
    for name, content in left.items():
        counts = not any(part.startswith(".") for part in Path(name).parts)
        if counts and content not in (old.get(name), new.get(name)):
            yield f"{name} is neither old nor new"
    for name in new:
        if name in old and name not in left:
            yield f"{name} is lost"


def kill_each_step(stage: Stage) -> dict[str, Any]:
    """Kill the command at each of its steps in turn, and let it run twice more after each."""
    for name in stage.folders:
        shutil.copytree(stage.project / name, stage.kept / name)
    old = stage.look()
    stage.run(0)
    new = stage.look()
    faults: list[str] = []
    killed = 0
    while True:
        stage.start_anew()
        if not stage.run(killed + 1):
            break
        killed += 1
        faults += [f"step {killed}: {fault}" for fault in find_faults(stage.look(), old, new)]
        for _ in range(2):
            stage.run(0)
        if stage.look() != new:
            faults.append(f"step {killed}: the next run ends in {sorted(stage.look())}")
    return {"killed": killed, "faults": faults, "files": sorted(new)}


if __name__ == "__main__":
    folders, project, *words = sys.argv[1:]
    stage = Stage(tuple(folders.split(",")), Path(project), tuple(words))
    sys.stdout.write(json.dumps(kill_each_step(stage)))
