"""Run `tempoleaf record` again and again, killed one step later each time, and look at the rest.

A step is whatever touches the program folder: a file opened, written, made sure of, moved or
removed, a lock taken. Its words are: the project, the export. It prints what it found as JSON.
"""

import json
import os
import shutil
import signal
import sys
from pathlib import Path
from types import FrameType

import builder.cli.record_command  # noqa: F401  # loaded once, before the forks
from builder.cli.app import main

PROJECT, EXPORT = Path(sys.argv[1]), Path(sys.argv[2])
FOLDER = PROJECT / "program"
KEPT = PROJECT.with_name("kept")
WRITES = {"write", "flush", "fsync", "close", "truncate"}


def count_to(last: int) -> None:
    """Have this process killed before its given step."""
    steps = [0]

    def count() -> None:
        steps[0] += 1
        if steps[0] == last:
            os.kill(os.getpid(), signal.SIGKILL)

    def hear(event: str, words: tuple[object, ...]) -> None:
        if str(FOLDER) in str(words) or event == "fcntl.flock":
            count()

    def watch(_frame: FrameType, event: str, called: object) -> None:
        if event == "c_call" and getattr(called, "__name__", "") in WRITES:
            count()

    sys.addaudithook(hear)
    sys.setprofile(watch)


def run(last: int) -> bool:
    """Record in a process of its own; tell whether it was killed at its step."""
    child = os.fork()
    if child == 0:
        os.dup2(os.open(os.devnull, os.O_WRONLY), 1)
        count_to(last)
        sys.argv = ["tempoleaf", "record", str(EXPORT), "--project", str(PROJECT)]
        try:
            main()
        finally:
            os._exit(0)
    return os.WIFSIGNALED(os.waitpid(child, 0)[1])


def look() -> dict[str, bytes]:
    return {
        str(path.relative_to(FOLDER)): path.read_bytes()
        for path in sorted(FOLDER.rglob("*"))
        if path.is_file()
    }


def start_anew() -> None:
    shutil.rmtree(FOLDER, ignore_errors=True)
    shutil.copytree(KEPT, FOLDER)


shutil.copytree(FOLDER, KEPT)
old = look()
run(0)
new = look()
faults = []
killed = 0
while True:
    start_anew()
    if not run(killed + 1):
        break
    killed += 1
    for name, content in look().items():
        is_ours = name in new and not Path(name).name.startswith(".")
        if is_ours and content not in (old.get(name), new[name]):
            faults.append(f"step {killed}: {name} is neither old nor new")
    for _ in range(2):
        run(0)
    if look() != new:
        faults.append(f"step {killed}: the next run ends in {sorted(look())}")
sys.stdout.write(json.dumps({"killed": killed, "faults": faults, "files": sorted(new)}))
