"""The starter course's whole site in a browser: no script complains, and it is quick to use."""

import gzip
import shutil
from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser

from builder.machine.browser import find_browser
from tests.browser_scripts.pages import STARTER, build_course, note_faults, serve_folder

ROOT = Path(__file__).parents[1]
PHONE = {"width": 360, "height": 640}
pytestmark = pytest.mark.skipif(find_browser() is None, reason="no Chromium on this machine")


@pytest.fixture(scope="module")
def site(shelf: Path, tmp_path_factory: pytest.TempPathFactory) -> Iterator[tuple[Path, str]]:
    """Build the starter course without cards, and serve it."""
    project = tmp_path_factory.mktemp("starter") / "project"
    shutil.copytree(ROOT / "content", project / "content")
    folder = build_course(shelf, project, settings=STARTER)
    with serve_folder(folder) as port:
        yield folder, f"http://127.0.0.1:{port}/"


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
            page.locator("[data-tl-open]").click()
            page.locator("[data-tl-begin]").click()
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
    assert page.get_by_role("button", name="Stop", exact=True).is_visible()
    page.close()


def test_pages_are_light_on_the_wire(browser: Browser, site: tuple[Path, str]) -> None:
    """What a phone fetches for a first lesson and then for a second, as a host packs it."""
    folder, address = site
    page = browser.new_context(viewport=PHONE).new_page()
    asked: set[str] = set()
    page.on("requestfinished", lambda request: asked.add(request.url))
    weights = []
    known: set[str] = set()
    for path in ("lessons/stretch/strap-hamstring/", "lessons/breath/belly-breath/"):
        page.goto(address + path)
        page.wait_for_load_state("networkidle")
        weights.append(sum(weigh(folder, url.removeprefix(address)) for url in asked - known))
        known |= asked
    page.close()
    first, later = weights
    assert 100_000 < first < 350_000
    assert 10_000 < later < 60_000


def weigh(folder: Path, path: str) -> int:
    """Return the bytes of a file, packed by gzip unless it is packed already."""
    file = folder / path.split("#", maxsplit=1)[0]
    content = (file / "index.html" if file.is_dir() else file).read_bytes()
    return len(content) if file.suffix == ".woff2" else len(gzip.compress(content))
