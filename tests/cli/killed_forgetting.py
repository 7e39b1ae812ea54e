"""Run `tempoleaf forget` again and again, killed one step later each time, and look at the rest.

A step is whatever touches the folders: a file opened, written, made sure of, moved or removed, a
lock taken. Its word is the project. It prints what it found as JSON.
"""

import json
import os
import shutil
import signal
import sys
from pathlib import Path
from types import FrameType

import builder.cli.forget_command  # noqa: F401  # loaded once, before the forks
from builder.cli.app import main

PROJECT = Path(sys.argv[1])
KEPT = PROJECT.with_name("kept")
FOLDERS = ("program", "coach")
WRITES = {"write", "flush", "fsync", "close", "truncate"}


def count_to(last: int) -> None:
    """Have this process killed before its given step."""
    steps = [0]

    def count() -> None:
        steps[0] += 1
        if steps[0] == last:
            os.kill(os.getpid(), signal.SIGKILL)

    def hear(event: str, words: tuple[object, ...]) -> None:
        touches = any(str(PROJECT / name) in str(words) for name in FOLDERS)
        is_write = event in ("os.rename", "os.remove") or "'xb'" in str(words)
        if (touches and is_write) or event == "fcntl.flock":
            count()

    def watch(_frame: FrameType, event: str, called: object) -> None:
        if event == "c_call" and getattr(called, "__name__", "") in WRITES:
            count()

    sys.addaudithook(hear)
    sys.setprofile(watch)


def run(last: int) -> bool:
    """Forget in a process of its own; tell whether it was killed at its step."""
    child = os.fork()
    if child == 0:
        quiet = os.open(os.devnull, os.O_WRONLY)
        os.dup2(quiet, 1)
        os.dup2(quiet, 2)
        count_to(last)
        sys.argv = ["tempoleaf", "forget", "R1", "--yes", "--project", str(PROJECT)]
        try:
            main()
        finally:
            os._exit(0)
    return os.WIFSIGNALED(os.waitpid(child, 0)[1])


def look() -> dict[str, bytes]:
    return {
        str(path.relative_to(PROJECT)): path.read_bytes()
        for name in FOLDERS
        for path in sorted((PROJECT / name).rglob("*"))
        if path.is_file() and path.name != ".records.lock"
    }


def start_anew() -> None:
    for name in FOLDERS:
        shutil.rmtree(PROJECT / name, ignore_errors=True)
        shutil.copytree(KEPT / name, PROJECT / name)


for name in FOLDERS:
    shutil.copytree(PROJECT / name, KEPT / name)
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
        is_ours = not Path(name).name.startswith(".")
        if is_ours and content not in (old.get(name), new.get(name)):
            faults.append(f"step {killed}: {name} is neither old nor new")
    if missing := [name for name in new if name not in look()]:
        faults.append(f"step {killed}: {missing} are lost")
    for _ in range(2):
        run(0)
    if look() != new:
        faults.append(f"step {killed}: the next run ends in {sorted(look())}")
sys.stdout.write(json.dumps({"killed": killed, "faults": faults}))
