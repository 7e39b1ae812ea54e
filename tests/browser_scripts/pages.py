"""Finished pages in a browser: build a course's site, serve it to this machine, look at it."""

import functools
import http.server
import threading
from collections.abc import Iterator
from contextlib import contextmanager
from datetime import UTC, datetime, timedelta
from pathlib import Path

from playwright.sync_api import Browser, Page, sync_playwright

from builder.machine.browser import find_browser
from builder.mkdocs_plugin import build_site

MORNING = datetime(2026, 11, 25, 8, tzinfo=UTC)
"""When the clocks of pages begin, if a test takes them over."""
SETTINGS = """\
site_name: A small course
docs_dir: content
theme: {name: material}
plugins: [search, tempoleaf: {cards: false}]
"""


class _Quiet(http.server.SimpleHTTPRequestHandler):
    def log_message(self, *_args: object) -> None:
        """Say nothing."""


@contextmanager
def serve_course(project: Path, *, strict: bool = True) -> Iterator[str]:
    """Build the site of a project without cards and give its address while it is served."""
    (project / "mkdocs.yml").write_text(SETTINGS, encoding="utf-8")
    assert build_site(project / "mkdocs.yml", project / "site", strict=strict) == ()
    handler = functools.partial(_Quiet, directory=str(project / "site"))
    with http.server.ThreadingHTTPServer(("127.0.0.1", 0), handler) as server:
        threading.Thread(target=server.serve_forever, daemon=True).start()
        yield f"http://127.0.0.1:{server.server_port}/"
        server.shutdown()


def stop_clock(page: Page) -> None:
    """Let a page's time pass only by the test's will, however slow the machine is."""
    page.clock.pause_at(MORNING + timedelta(hours=1))


@contextmanager
def open_browser() -> Iterator[Browser]:
    """Give the machine's Chromium, in which sound needs no click first."""
    arguments = ["--no-sandbox", "--disable-quic", "--autoplay-policy=no-user-gesture-required"]
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=find_browser(), args=arguments)
        yield browser
        browser.close()
