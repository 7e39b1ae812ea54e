"""What every test may use: a small course in a temporary folder, and golden files."""

import os
import shutil
from collections.abc import Callable, Iterator, Mapping
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING

import pytest
from hypothesis import settings

from tests.trying import THOROUGH

if TYPE_CHECKING:
    from playwright.sync_api import Browser

settings.register_profile("any-machine", deadline=None)  # how long a case takes is no claim
settings.register_profile(THOROUGH, settings.get_profile("any-machine"))  # see count_tries
settings.load_profile("any-machine")

SMALL_COURSE = Path(__file__).parent / "small_course"

WriteCourse = Callable[..., Path]


def pytest_addoption(parser: pytest.Parser) -> None:
    parser.addoption("--update-golden", action="store_true", help="rewrite the golden files")


REVIEWED_ON = "2026-10-01"
"""The day on which the small course says it was reviewed."""


def copy_small_course(root: Path, reviewed_on: str | None = None) -> Path:
    """Copy the small course into a folder, its notices reviewed today if no day is given."""
    shutil.copytree(SMALL_COURSE, root, dirs_exist_ok=True)
    day = reviewed_on or date.today().isoformat()
    for path in root.glob("content/notices/*.md"):
        text = path.read_text(encoding="utf-8")
        path.write_text(text.replace(f"on: {REVIEWED_ON}", f"on: {day}"), encoding="utf-8")
    return root


@pytest.fixture(scope="session")
def shelf(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Give the folder in which all workers of a run keep what they make once."""
    own = tmp_path_factory.getbasetemp()
    return (own.parent if "PYTEST_XDIST_WORKER" in os.environ else own) / "made-once"


@pytest.fixture(scope="module")
def browser() -> Iterator["Browser"]:
    """Give the machine's Chromium to the tests of a module."""
    from tests.browser_scripts.pages import open_browser  # noqa: PLC0415  # most tests need none

    with open_browser() as started:
        yield started


@pytest.fixture(scope="module")
def safe_port() -> int:
    """Name the port at which all sites of a module's tests are served, one after another."""
    from tests.browser_scripts.pages import find_port  # noqa: PLC0415  # most tests need none

    return find_port()


@pytest.fixture(scope="module")
def safe_browser(safe_port: int) -> Iterator["Browser"]:
    """Give a Chromium in which what is served at that port counts as encrypted."""
    from tests.browser_scripts.pages import open_browser  # noqa: PLC0415  # as above

    with open_browser(safe_port=safe_port) as started:
        yield started


@pytest.fixture
def write_course(tmp_path: Path) -> WriteCourse:
    """Copy the small course and lay files over it; None deletes one."""

    def write(
        files: Mapping[str, str | None] | None = None,
        name: str = "project",
        reviewed_on: str | None = None,
    ) -> Path:
        root = copy_small_course(tmp_path / name, reviewed_on)
        for path, text in (files or {}).items():
            target = root / path
            if text is None:
                target.unlink()
            else:
                target.parent.mkdir(parents=True, exist_ok=True)
                target.write_text(text, encoding="utf-8")
        return root

    return write


@pytest.fixture
def check_golden(request: pytest.FixtureRequest) -> Callable[[Path, str], None]:
    """Compare a text with its golden file, or rewrite the file when asked to."""

    def check(path: Path, text: str) -> None:
        if request.config.getoption("--update-golden"):
            path.parent.mkdir(parents=True, exist_ok=True)
            path.write_text(text, encoding="utf-8")
        assert text == path.read_text(encoding="utf-8")

    return check
