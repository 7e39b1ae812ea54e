"""The starter course's site, once from left to right and once from right to left, served."""

import shutil
from collections.abc import Iterator
from pathlib import Path

import pytest

from tests.browser_scripts.pages import NAME, SETTINGS, STARTER, build_course, serve_folder

CONTENT = Path(__file__).parents[2] / "content"
BASE = "course"
"""Where the site lies on its host, as its address says; the page for what is not there needs it."""
HEBREW = SETTINGS.replace("A small course", "שיעורי נשימה ותנועה").replace(
    "theme: {name: material}", "theme: {name: material, language: he}"
)


def _build(shelf: Path, folder: Path, settings: str) -> Path:
    project = folder / "project"
    shutil.copytree(CONTENT, project / "content")
    return build_course(shelf, project, settings=settings).rename(folder / BASE)


@pytest.fixture(scope="package")
def folder(shelf: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Build the starter course without cards."""
    return _build(shelf, tmp_path_factory.mktemp("left-to-right"), STARTER)


@pytest.fixture(scope="package")
def address(folder: Path) -> Iterator[str]:
    with serve_folder(folder.parent) as port:
        yield f"http://{NAME}:{port}/{BASE}/"


@pytest.fixture(scope="package")
def mirrored(shelf: Path, tmp_path_factory: pytest.TempPathFactory) -> Iterator[str]:
    """Build the same in a frame of Hebrew, whose pages run from right to left."""
    site = _build(shelf, tmp_path_factory.mktemp("right-to-left"), HEBREW)
    with serve_folder(site.parent) as port:
        yield f"http://{NAME}:{port}/{BASE}/"
