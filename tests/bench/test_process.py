"""What a command took is told by the system; a command that fails took nothing at all."""

import os
import sys
from pathlib import Path

import pytest

from tests.bench.process import BenchError, Usage, run_command

BELOW = "import subprocess, sys; subprocess.run([sys.executable, '-c', sys.argv[1]], check=True)"
LARGE = "import time; kept = bytearray(80_000_000); time.sleep(1)"
BUSY = "sum(range(5_000_000))"
COPY = f"import os; os.fork() or (exec({LARGE!r}), os._exit(0)); os.wait()"
CAN_LOOK = Path("/proc/self/task").is_dir()


def run(*words: str) -> tuple[Usage, str]:
    return run_command((sys.executable, "-c", *words), Path(), os.environ)


def test_what_a_command_said_comes_back_with_what_it_took() -> None:
    used, said = run("import sys; print('done'); print('aside', file=sys.stderr)")
    assert "done" in said
    assert "aside" in said
    assert used.peak_mb > 1


def test_work_of_processes_below_counts() -> None:
    alone, _ = run("pass")
    used, _ = run(BELOW, BUSY)
    assert used.cpu_seconds > alone.cpu_seconds


@pytest.mark.skipif(not CAN_LOOK, reason="this system doesn't show its processes")
def test_the_largest_process_below_is_watched() -> None:
    used, _ = run(BELOW, LARGE)
    assert used.worker_mb > 80_000_000 / 1024 / 1024


@pytest.mark.skipif(not CAN_LOOK, reason="this system doesn't show its processes")
def test_a_forked_copy_is_no_worker() -> None:
    """It has its parent's memory: a bench took a course's size for the growth of a card worker."""
    used, _ = run(COPY)
    assert used.worker_mb == 0
    assert used.peak_mb > 1


def test_a_command_without_processes_below_has_no_worker() -> None:
    used, _ = run("pass")
    assert used.worker_mb == 0


def test_a_command_that_fails_is_refused_with_its_last_words() -> None:
    with pytest.raises(BenchError, match=r"ended with 3\n.*no such lesson"):
        run("import sys; print('no such lesson'); sys.exit(3)")


def test_two_runs_in_a_row_take_as_long_as_both_and_as_much_as_the_larger() -> None:
    both = Usage(1, 2, 30, 0) + Usage(4, 5, 20, 9)
    assert both == Usage(5, 7, 30, 9)
