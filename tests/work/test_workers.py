"""Worker processes end with the one that they work for, and leave Ctrl+C to it."""

import os
import signal
import subprocess
import sys
import time
from pathlib import Path

import pytest

pytestmark = pytest.mark.skipif(sys.platform == "win32", reason="processes are killed by groups")
ASKER = """
import os, sys, time
from builder.work.pool import open_pool

if __name__ == "__main__":
    try:
        with open_pool(2) as pool:
            first = pool.submit(os.getpid).result()
            jobs = [pool.submit(time.sleep, 1) for _ in range(4)]
            print(first, flush=True)
            jobs[-1].result()
            time.sleep(60)
    except KeyboardInterrupt:
        sys.exit(130)
"""
PATIENCE_SECONDS = 60


def start(folder: Path) -> tuple[subprocess.Popen[str], int]:
    """Start a process with two workers at work; return it and one of them."""
    (folder / "asker.py").write_text(ASKER, encoding="utf-8")
    root = str(Path(__file__).parents[2])
    asker = subprocess.Popen(
        [sys.executable, "asker.py"],
        cwd=folder,
        env=os.environ | {"PYTHONPATH": root, "TMPDIR": str(folder)},
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        text=True,
        start_new_session=True,
        preexec_fn=lambda: signal.signal(signal.SIGINT, signal.SIG_DFL),  # noqa: PLW1509  # a job of a shell has none
    )
    assert asker.stdout
    return asker, int(asker.stdout.readline())


def is_there(process: int) -> bool:
    """Tell whether a process is there; one that has ended may wait to be taken note of."""
    try:
        told = Path(f"/proc/{process}/stat").read_text(encoding="ascii", errors="replace")
    except OSError:
        return False
    return told.rpartition(")")[2].split()[0] != "Z"


@pytest.mark.skipif(sys.platform != "linux", reason="processes are looked up as Linux lists them")
def test_workers_end_when_the_process_they_work_for_is_killed(tmp_path: Path) -> None:
    asker, worker = start(tmp_path)
    assert is_there(worker)
    asker.kill()
    asker.communicate(timeout=PATIENCE_SECONDS)  # their ends of the pipes are closed too
    until = time.monotonic() + PATIENCE_SECONDS
    while is_there(worker) and time.monotonic() < until:
        time.sleep(0.05)
    assert not is_there(worker)


def test_an_interrupt_from_the_keyboard_is_told_by_nobody_but_the_one_who_asked(
    tmp_path: Path,
) -> None:
    asker, _ = start(tmp_path)
    os.killpg(asker.pid, signal.SIGINT)
    _, said = asker.communicate(timeout=PATIENCE_SECONDS)
    assert (asker.returncode, said) == (130, "")
    assert [path.name for path in tmp_path.iterdir()] == ["asker.py"]
