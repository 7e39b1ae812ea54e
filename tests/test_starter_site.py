"""The starter course's whole site in a browser: no script complains, and it is quick to use."""

import shutil
from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser

from builder.machine.browser import find_browser
from tests.browser_scripts.pages import note_faults, open_browser, serve_course

ROOT = Path(__file__).parents[1]
PHONE = {"width": 360, "height": 640}
pytestmark = pytest.mark.skipif(find_browser() is None, reason="no Chromium on this machine")


@pytest.fixture(scope="module")
def site(tmp_path_factory: pytest.TempPathFactory) -> Iterator[tuple[Path, str]]:
    """Build the starter course without cards, and serve it."""
    project = tmp_path_factory.mktemp("starter") / "project"
    shutil.copytree(ROOT / "content", project / "content")
    with serve_course(project) as address:
        yield project / "site", address


@pytest.fixture(scope="module")
def browser() -> Iterator[Browser]:
    with open_browser() as started:
        yield started


def test_no_script_complains_on_any_page(browser: Browser, site: tuple[Path, str]) -> None:
    folder, address = site
    page = browser.new_page(viewport=PHONE)
    faults = note_faults(page)
    outside: set[str] = set()
    page.on(
        "request",
        lambda ask: (
            None if ask.url.startswith((address, "data:", "blob:")) else outside.add(ask.url)
        ),
    )
    pages = [path.parent.relative_to(folder).as_posix() for path in folder.rglob("index.html")]
    assert len(pages) > 100
    for path in sorted(pages):
        page.goto(f"{address}{path}/" if path != "." else address)
        if page.locator("[data-tl-open]").count():
            page.get_by_role("button", name="Practise now").click()
            page.get_by_role("button", name="Begin").click()
            page.locator(".tl-pacer__run").wait_for()
    page.close()
    assert (faults, outside) == ([], set())


def test_a_first_visitor_breathes_after_three_taps(
    browser: Browser, site: tuple[Path, str]
) -> None:
    page = browser.new_page(viewport=PHONE, has_touch=True)
    page.goto(site[1])
    page.locator("ol a[href*='belly-breath']").tap()
    page.get_by_role("button", name="Practise now").tap()
    page.get_by_role("button", name="Begin").tap()
    page.locator(".tl-pacer__where", has_text="Set 1 of").wait_for()
    page.close()
