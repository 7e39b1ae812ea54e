"""Builds where the disk is full or may not be written: plain words, and the old site stands."""

import os
import shutil
import subprocess
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import pytest

from tests.conftest import copy_small_course
from tests.made_once import A6_ONLY, build_without_cards, lay_cards
from tests.running import Done, run_tool
from tests.test_kept_pages import read_site

ROOMY = "200m"
OLD = "the site before"


def mount(*words: str | Path) -> None:
    done = subprocess.run(["mount", *words], check=False, capture_output=True, text=True)
    if done.returncode:
        pytest.skip(f"this machine lets nobody mount a disk here: {done.stderr.strip()}")


@contextmanager
def mount_disk(folder: Path, size: str) -> Iterator[Path]:
    """Give a folder that is a disk of its own."""
    if sys.platform != "linux" or os.geteuid():
        pytest.skip("only root mounts a disk, on Linux")
    folder.mkdir()
    mount("-t", "tmpfs", "-o", f"size={size}", "tmpfs", folder)
    try:
        yield folder
    finally:
        subprocess.run(["umount", folder], check=True)


@pytest.fixture
def disk(shelf: Path, tmp_path: Path) -> Iterator[Path]:
    """Give a disk of its own with a course and its old site, to be made smaller."""
    with mount_disk(tmp_path / "disk", ROOMY) as folder:
        project = shutil.copytree(build_without_cards(shelf), folder / "project")
        (project / "site" / "index.html").write_text(OLD, encoding="utf-8")
        yield folder


def build(project: Path) -> Done:
    return run_tool("build", "--quiet", folder=project)


@pytest.mark.parametrize("room_kb", [8, 1500])
def test_a_full_disk_leaves_the_old_site_and_the_next_build_is_whole(
    shelf: Path, disk: Path, room_kb: int
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
    assert read_site(project / "site") == read_site(build_without_cards(shelf) / "site")
    assert not [path.name for path in project.iterdir() if path.name.startswith(".site-")]


def test_a_disk_that_may_only_be_read_is_told_and_changes_nothing(disk: Path) -> None:
    project = disk / "project"
    before = read_site(project / "site")
    mount("-o", f"remount,ro,size={ROOMY}", disk)
    done = build(project)
    assert (done.returncode, "Traceback" in done.stderr) == (2, False), done.stderr
    assert "can't be" in done.stderr
    mount("-o", f"remount,rw,size={ROOMY}", disk)
    assert read_site(project / "site") == before


def test_where_temporary_files_find_no_room_their_folder_is_named(
    shelf: Path, tmp_path: Path
) -> None:
    """A process of its own, because Python looks once where temporary files go."""
    project = copy_small_course(tmp_path / "project")
    (project / "mkdocs.yml").write_text(A6_ONLY, encoding="utf-8")
    lay_cards(shelf, project)
    with mount_disk(tmp_path / "scratch", "64k") as scratch:
        done = subprocess.run(
            [sys.executable, "-c", "from builder.cli.app import main; main()", "build", "-q"],
            cwd=project,
            env={
                **os.environ,
                "TMPDIR": str(scratch),
                "PYTHONPATH": str(Path(__file__).parents[1]),
            },
            capture_output=True,
            text=True,
            check=False,
        )
        assert done.returncode == 2
        assert done.stderr == (
            "cannot go on: the disk is full; make room on it, or on that of "
            f'"{scratch}" (TMPDIR names another folder), and run this again.\n'
        )
        assert list(scratch.iterdir()) == []
    assert sorted(path.name for path in project.iterdir()) == [".cache", "content", "mkdocs.yml"]
