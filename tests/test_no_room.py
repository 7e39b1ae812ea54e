"""Builds where the disk is full or may not be written: plain words, and the old site stands."""

import os
import shutil
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest

from tests.conftest import copy_small_course

SETTINGS = """\
site_name: A small course
docs_dir: content
theme: {name: material}
plugins: [search, tempoleaf: {cards: false}]
"""
ROOMY = "200m"
OLD = "the site before"


def mount(*words: str | Path) -> None:
    done = subprocess.run(["mount", *words], check=False, capture_output=True, text=True)
    if done.returncode:
        pytest.skip(f"this machine lets nobody mount a disk here: {done.stderr.strip()}")


@pytest.fixture
def disk(tmp_path: Path) -> Iterator[Path]:
    """Give a disk of its own with a course and its old site, to be made smaller."""
    if sys.platform != "linux" or os.geteuid():
        pytest.skip("only root mounts a disk, on Linux")
    folder = tmp_path / "disk"
    folder.mkdir()
    mount("-t", "tmpfs", "-o", f"size={ROOMY}", "tmpfs", folder)
    try:
        project = copy_small_course(folder / "project")
        (project / "mkdocs.yml").write_text(SETTINGS, encoding="utf-8")
        assert build(project).returncode == 0
        (project / "site" / "index.html").write_text(OLD, encoding="utf-8")
        yield folder
    finally:
        subprocess.run(["umount", folder], check=True)


def build(project: Path) -> "subprocess.CompletedProcess[str]":
    command = [sys.executable, "-c", "from builder.cli.app import main; main()", "build", "-q"]
    kept = {"XDG_CACHE_HOME": str(project.parents[1] / "home")}
    return subprocess.run(
        command,
        cwd=project,
        env={**os.environ, **kept, "PYTHONPATH": str(Path(__file__).parents[1])},
        check=False,
        capture_output=True,
        text=True,
        timeout=120,
    )


def read_site(project: Path) -> dict[str, bytes]:
    site = project / "site"
    files = (path for path in site.rglob("*") if path.is_file())
    return {path.relative_to(site).as_posix(): path.read_bytes() for path in files}


def build_clean(project: Path, beside: Path) -> dict[str, bytes]:
    ignored = shutil.ignore_patterns(".cache", "site")
    shutil.copytree(project, beside / "project", ignore=ignored)
    assert build(beside / "project").returncode == 0
    return read_site(beside / "project")


@pytest.mark.parametrize("room_kb", [8, 1500])
def test_a_full_disk_leaves_the_old_site_and_the_next_build_is_whole(
    disk: Path, tmp_path: Path, room_kb: int
) -> None:
    project = disk / "project"
    shutil.rmtree(project / ".cache")
    used = sum(path.stat().st_blocks for path in disk.rglob("*")) // 2
    mount("-o", f"remount,size={used + room_kb}k", disk)
    done = build(project)
    assert (done.returncode, "Traceback" in done.stderr) == (2, False), done.stderr
    assert "full" in done.stderr or "No space" in done.stderr
    assert (project / "site" / "index.html").read_text(encoding="utf-8") == OLD
    mount("-o", f"remount,size={ROOMY}", disk)
    assert build(project).returncode == 0
    assert read_site(project) == build_clean(project, tmp_path / "clean")
    assert not [path.name for path in project.iterdir() if path.name.startswith(".site-")]


def test_a_disk_that_may_only_be_read_is_told_and_changes_nothing(disk: Path) -> None:
    project = disk / "project"
    before = read_site(project)
    mount("-o", f"remount,ro,size={ROOMY}", disk)
    done = build(project)
    assert (done.returncode, "Traceback" in done.stderr) == (2, False), done.stderr
    assert "can't be" in done.stderr
    mount("-o", f"remount,rw,size={ROOMY}", disk)
    assert read_site(project) == before
