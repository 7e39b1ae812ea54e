"""The way in: what it says and refuses before anything is set up."""

import ast
import os
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

from builder.start import refusal

ROOT = Path(__file__).parent.parent
START = ROOT / "builder" / "start.py"


@pytest.fixture
def clone(tmp_path: Path) -> Path:
    """Copy what a fresh clone holds, as far as set-up reads it."""
    for name in ("builder", "tests/requirements.lock", "requirements.lock", "pyproject.toml"):
        source, target = ROOT / name, tmp_path / "clone" / name
        target.parent.mkdir(parents=True, exist_ok=True)
        if source.is_dir():
            shutil.copytree(source, target, ignore=shutil.ignore_patterns("__pycache__"))
        else:
            shutil.copy(source, target)
    return tmp_path / "clone"


def start(clone: Path, *words: str) -> subprocess.CompletedProcess[str]:
    # -S leaves all installed packages out: what runs here is the standard library alone.
    command = (sys.executable, "-S", "-B", str(clone / "builder" / "start.py"), *words)
    return subprocess.run(command, capture_output=True, text=True, check=False, cwd=clone)


def test_an_older_python_can_read_the_file() -> None:
    ast.parse(START.read_text(encoding="utf-8"), feature_version=(3, 8))


@pytest.mark.parametrize("version", [(3, 8, 18), (3, 10, 13), (2, 7, 18)])
def test_an_older_python_is_refused_in_one_sentence(version: tuple[int, int, int]) -> None:
    refused = refusal(version, "/opt/python")
    assert refused is not None
    assert refused.count("\n") == 0
    assert ".".join(map(str, version)) in refused
    assert "Python 3.11 or newer" in refused


@pytest.mark.parametrize("version", [(3, 11, 0), (3, 14, 1), (4, 0, 0)])
def test_a_newer_python_is_not_refused(version: tuple[int, int, int]) -> None:
    assert refusal(version, "/opt/python") is None


def test_no_word_explains_the_words_and_fails(clone: Path) -> None:
    done = start(clone)
    assert done.returncode == 2
    assert "python3 builder/start.py" in done.stdout
    for word in ("demo", "test", "new DIR", "serve", "check", "--dry-run"):
        assert word in done.stdout


def test_help_is_no_failure(clone: Path) -> None:
    assert start(clone, "--help").returncode == 0


def test_a_dry_run_tells_each_step_and_takes_none(clone: Path) -> None:
    before = sorted(clone.rglob("*"))
    done = start(clone, "demo", "--dry-run")
    assert done.returncode == 0, done.stderr
    told = done.stdout.index
    assert told("virtual environment") < told("requirements.lock") < told("Build the demo course")
    assert sorted(clone.rglob("*")) == before


def test_a_dry_run_of_the_tests_names_both_lock_files(clone: Path) -> None:
    done = start(clone, "--dry-run", "test")
    assert "requirements.lock and tests/requirements.lock" in done.stdout


def test_any_other_word_goes_to_tempoleaf_as_it_stands(clone: Path) -> None:
    done = start(clone, "--dry-run", "explain", "T001")
    assert "Run tempoleaf explain T001." in done.stdout


def test_a_failed_set_up_says_why_and_is_never_taken_for_a_whole_one(clone: Path) -> None:
    # No index and no folder of packages: the first package can't be found.
    offline = {"PATH": os.environ["PATH"], "PIP_NO_INDEX": "1", "PIP_CONFIG_FILE": os.devnull}
    command = (sys.executable, "-B", str(clone / "builder" / "start.py"), "--set-up-only")
    done = subprocess.run(command, capture_output=True, text=True, check=False, env=offline)
    assert done.returncode == 2
    assert "Stopped: this failed with exit code 1:" in done.stdout
    assert "No matching distribution found" in done.stdout
    assert "Make a virtual environment anew" in start(clone, "demo", "--dry-run").stdout
