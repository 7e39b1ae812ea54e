"""What takes long to make and several tests look at: made once in a run, by whichever worker.

What is kept stays as it was made; a test that changes something takes a copy.
"""

import hashlib
import shutil
from collections.abc import Callable
from pathlib import Path

from filelock import FileLock

from builder.mkdocs_parts import Order
from builder.mkdocs_plugin import build_site
from tests.conftest import copy_small_course
from tests.running import run_tool

A6_ONLY = """\
site_name: A small course
docs_dir: content
theme: {name: material}
plugins: [search, tempoleaf: {papers: [a6]}]
"""
NO_CARDS = A6_ONLY.replace("papers: [a6]", "cards: false")


def make_once(shelf: Path, name: str, make: Callable[[Path], object]) -> Path:
    """Return what was made under a name; the first who asks makes it, others wait for it."""
    kept, making = shelf / name, shelf / f"{name}.making"
    shelf.mkdir(exist_ok=True)
    with FileLock(shelf / f"{name}.lock"):
        if not kept.exists():
            shutil.rmtree(making, ignore_errors=True)  # somebody's who failed
            making.mkdir()
            make(making)
            making.rename(kept)
    return kept


def build_once(shelf: Path, project: Path, *, strict: bool) -> Path:
    """Give a project the site that is built of the same files with the same settings."""

    def build(folder: Path) -> None:
        assert build_site(Order(project / "mkdocs.yml", strict), folder / "site") == ()

    sources = hashlib.sha256(str(strict).encode())
    made = (project / "site", project / ".cache")
    every = sorted(path for path in project.rglob("*") if path.is_file())
    for path in (path for path in every if not any(map(path.is_relative_to, made))):
        sources.update(repr((path.relative_to(project).as_posix(), path.read_bytes())).encode())
    kept = make_once(shelf, sources.hexdigest()[:16], build)
    return shutil.copytree(kept / "site", project / "site", dirs_exist_ok=True)


def lay_cards(shelf: Path, project: Path) -> None:
    """Put the A6 cards of the small course into a project's cache, as an earlier build does."""

    def build(folder: Path) -> None:
        (copy_small_course(folder) / "mkdocs.yml").write_text(A6_ONLY, encoding="utf-8")
        assert build_site(Order(folder / "mkdocs.yml"), folder / "site") == ()

    kept = make_once(shelf, "small-course-on-a6", build)
    shutil.copytree(kept / ".cache", project / ".cache")


def build_without_cards(shelf: Path) -> Path:
    """Return a project of the small course as two builds without cards leave it, for copies."""

    def build(folder: Path) -> None:
        (copy_small_course(folder) / "mkdocs.yml").write_text(NO_CARDS, encoding="utf-8")
        for _ in range(2):  # the second lays the first one's pages by
            done = run_tool("build", "--quiet", folder=folder)
            assert done.returncode == 0, done.stderr

    return make_once(shelf, "small-course-without-cards", build)
