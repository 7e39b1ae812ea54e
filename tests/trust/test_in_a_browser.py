"""A browser runs, fetches and opens nothing of what strangers wrote, with and without policy."""

import re
import shutil
from collections.abc import Iterator
from pathlib import Path
from urllib.parse import urlsplit

import pytest
from playwright.sync_api import Browser, Page

from builder.machine.browser import find_browser
from tests.browser_scripts.pages import serve_folder, wait_until
from tests.trust.test_built import build_marked, build_preview
from tests.trust.vectors import ALONE, drawing

pytestmark = pytest.mark.skipif(find_browser() is None, reason="no Chromium on this machine")
_POLICY = re.compile(r'<meta http-equiv="Content-Security-Policy"[^>]*>')
_CANARY = """
window.ran = []; window.refused = [];
Object.defineProperty(window, "pwned", {
  get() { window.ran.push("get"); return () => {}; }, set() { window.ran.push("set"); } });
document.addEventListener("securitypolicyviolation", (event) => {
  window.refused.push(`${event.violatedDirective} ${event.blockedURI}`); });
"""
"""Notes whoever calls or sets what the marks and vectors call or set."""


class Watch:
    """One page of a browser, and everything that happens on it."""

    def __init__(self, page: Page) -> None:
        self.page = page
        self.requests: list[str] = []
        self.dialogs: list[str] = []
        page.add_init_script(_CANARY)
        page.on("request", lambda request: self.requests.append(request.url))
        page.on("dialog", self._dismiss)

    def _dismiss(self, dialog) -> None:
        self.dialogs.append(dialog.message)
        dialog.dismiss()

    def find_faults(self, port: int) -> list[str]:
        """Return what a page did that it may not."""
        own = (("http", f"127.0.0.1:{port}"), ("data", ""), ("blob", ""))
        strange = [url for url in self.requests if urlsplit(url)[:2] not in own
                   and not url.startswith("blob:")]  # fmt: skip
        self.requests.clear()
        told = self.page.evaluate("[...window.ran, ...window.refused]")
        return [*strange, *self.dialogs, *told]


@pytest.fixture
def watch(browser: Browser) -> Iterator[Watch]:
    page = browser.new_page()
    yield Watch(page)
    page.close()


def take_policy_out(site: Path, folder: Path) -> Path:
    shutil.copytree(site, folder)
    for path in folder.rglob("*.html"):
        text = path.read_text(encoding="utf-8")
        assert _POLICY.search(text)
        path.write_text(_POLICY.sub("", text), encoding="utf-8")
    return folder


def visit_all(site: Path, watch: Watch) -> int:
    """Open every page but those of the author guide; return how many there were."""
    pages = sorted(site.rglob("*.html"))
    wanted = [path for path in pages if "authors" not in path.parts or "U10" in path.as_posix()]
    with serve_folder(site) as port:
        for path in wanted:
            watch.page.goto(f"http://127.0.0.1:{port}/{path.relative_to(site).as_posix()}")
            watch.page.mouse.move(200, 200)
            watch.page.mouse.move(300, 300)
            assert watch.find_faults(port) == [], path
            assert watch.page.url.startswith(f"http://127.0.0.1:{port}/"), path
    return len(wanted)


@pytest.mark.parametrize("name", ["marked", "hostile"])
def test_pages_without_policy_run_nothing(shelf: Path, watch: Watch, name: str) -> None:
    vectors = ALONE if name == "hostile" else ()
    site = build_preview(shelf, "hostile" if vectors else "marked-preview", *vectors)
    assert "Content-Security-Policy" not in (site / "index.html").read_text(encoding="utf-8")
    assert visit_all(site, watch) > 12


@pytest.mark.parametrize("has_policy", [True, False])
def test_a_published_site_runs_nothing_and_breaks_no_policy(
    shelf: Path, tmp_path: Path, watch: Watch, *, has_policy: bool
) -> None:
    site = build_marked(shelf)
    site = site if has_policy else take_policy_out(site, tmp_path / "site")
    assert visit_all(site, watch) > 12


def test_the_search_shows_markup_as_words(shelf: Path, tmp_path: Path, watch: Watch) -> None:
    site = take_policy_out(build_marked(shelf), tmp_path / "site")
    with serve_folder(site) as port:
        watch.page.goto(f"http://127.0.0.1:{port}/")
        for words in ("onerror", "pwned", "long out"):
            watch.page.fill("input[name=query]", words)
            shown = "document.querySelectorAll('.md-search-result__item').length"
            wait_until(watch.page, f"{shown} > 0")
            watch.page.wait_for_timeout(300)
            made = "document.querySelectorAll('.md-search-result [onerror], .md-search-result i')"
            assert watch.page.evaluate(f"{made}.length") == 0
        assert watch.find_faults(port) == []


def test_a_watch_sees_what_it_is_there_for(tmp_path: Path, watch: Watch) -> None:
    (tmp_path / "index.html").write_text(
        "<img src=x onerror=pwned()><script>window.pwned=1;alert(1)</script>"
        '<img src="https://canary.invalid/a.png">',
        encoding="utf-8",
    )
    with serve_folder(tmp_path) as port:
        watch.page.goto(f"http://127.0.0.1:{port}/")
        faults = watch.find_faults(port)
    assert {"https://canary.invalid/a.png", "1", "get", "set"} <= set(faults)


def test_a_drawing_written_anew_is_shown_and_runs_nothing(shelf: Path, watch: Watch) -> None:
    shape = '<path d="M0 0h9v9z" fill="#1f5e5b"/><text x="1" y="5">a &lt; b</text>'
    site = build_preview(shelf, "drawn", drawing("mat", shape))
    with serve_folder(site) as port:
        watch.page.goto(f"http://127.0.0.1:{port}/mat.svg")
        assert watch.page.evaluate("document.querySelectorAll('path, text').length") == 2
        assert watch.find_faults(port) == []
