"""The doctor as a command."""

import json
import subprocess
import sys
from pathlib import Path


def doctor(place: Path, *words: str) -> subprocess.CompletedProcess[str]:
    command = (sys.executable, "-c", "from builder.cli.app import main; main()", "doctor", *words)
    return subprocess.run(command, capture_output=True, text=True, check=False, cwd=place)


def test_a_machine_that_runs_the_tests_is_ready(tmp_path: Path) -> None:
    done = doctor(tmp_path)
    assert done.returncode == 0, done.stdout + done.stderr
    assert done.stdout.endswith("All that a build needs is here.\n")
    assert list(tmp_path.iterdir()) == []


def test_a_folder_where_no_cache_can_be_made_gives_exit_code_1(tmp_path: Path) -> None:
    (tmp_path / ".cache").write_text("in the way", encoding="utf-8")
    done = doctor(tmp_path, "--json")
    told = json.loads(done.stdout)
    assert done.returncode == 1
    assert told["ready"] is False
    assert [need["name"] for need in told["needs"] if need["state"] == "missing"] == ["cache"]
