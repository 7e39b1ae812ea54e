"""A site opened from a disk by double click: pages, pacer, what is kept, and search."""

import zipfile
from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page
from typer.testing import CliRunner

from builder.cli.app import make_app
from builder.machine.browser import find_browser
from tests.browser_scripts.pages import note_faults
from tests.conftest import copy_small_course
from tests.made_once import A6_ONLY, lay_cards

pytestmark = pytest.mark.skipif(find_browser() is None, reason="no Chromium on this machine")


@pytest.fixture(scope="module")
def folder(shelf: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Build a course with its zip, and unpack that as a person would."""
    root = tmp_path_factory.mktemp("disk")
    project = copy_small_course(root / "project")
    (project / "mkdocs.yml").write_text(A6_ONLY, encoding="utf-8")
    lay_cards(shelf, project)
    words = ["build", str(project), "--zip", str(root / "out" / "our course.zip")]
    done = CliRunner().invoke(make_app(["build"]), words)
    assert done.exit_code == 0, done.output
    assert [path.name for path in (root / "out").iterdir()] == ["our course.zip"]
    with zipfile.ZipFile(root / "out" / "our course.zip") as file:
        assert not any(name.endswith(("_headers", "service-worker.js")) for name in file.namelist())
        file.extractall(root / "unpacked")
    return root / "unpacked" / "our course"


@pytest.fixture
def page(browser: Browser) -> Iterator[Page]:
    opened = browser.new_page(viewport={"width": 360, "height": 640})
    faults = note_faults(opened)
    asked: list[str] = []
    opened.on("request", lambda request: asked.append(request.url))
    yield opened
    opened.close()
    outside = [url for url in asked if not url.startswith(("file:", "data:", "blob:"))]
    assert (faults, outside) == ([], [])


def test_links_lead_from_page_to_page(page: Page, folder: Path) -> None:
    page.goto((folder / "index.html").as_uri())
    page.locator(".md-content").get_by_role("link", name="Hand on the belly").first.click()
    page.locator("h1", has_text="Hand on the belly").wait_for()
    page.locator(".md-content").get_by_role("link", name="Wide ribs").first.click()
    page.locator("h1", has_text="Wide ribs").wait_for()
    assert page.url == (folder / "lessons/breath/wide-ribs.html").as_uri()


def test_search_finds_a_lesson(page: Page, folder: Path) -> None:
    page.goto((folder / "map.html").as_uri())
    page.locator(".md-header__button[for=__search]").click()
    page.get_by_role("textbox").press_sequentially("short hold")
    page.locator(".md-search-result__link").first.click()
    page.locator("h1", has_text="Short hold").wait_for()
    assert page.url.startswith((folder / "lessons/count/short-hold.html").as_uri())


def test_the_pacer_runs_and_what_was_done_is_kept(page: Page, folder: Path) -> None:
    page.goto((folder / "lessons/count/short-hold.html").as_uri())
    page.locator("[data-tl-tick]").first.check()
    page.get_by_role("button", name="Practise now").click()
    page.get_by_role("button", name="Begin").click()
    page.locator(".tl-pacer__where", has_text="Set 1 of 2").wait_for()
    page.get_by_role("button", name="Leave").click()
    page.goto((folder / "map.html").as_uri())
    assert "✓ ready" in page.locator(".tl-mark").all_inner_texts()
