"""Finished pages in a browser: build a course's site, serve it to this machine, look at it."""

import functools
import http.server
import json
import os
import socket
import threading
import time
from collections.abc import Iterator
from contextlib import contextmanager
from datetime import UTC, datetime, timedelta
from pathlib import Path

from playwright.sync_api import Browser, BrowserContext, Page, sync_playwright

from builder.machine.browser import find_browser
from tests.made_once import build_once

MORNING = datetime(2026, 11, 25, 8, tzinfo=UTC)
"""When the clocks of pages begin, if a test takes them over."""
SETTINGS = """\
site_name: A small course
docs_dir: content
theme: {name: material}
plugins: [search, tempoleaf: {cards: false}]
"""
STARTER = SETTINGS.replace("A small course", "Breathe, brace and move")
NAME = "studio.test"
"""A name for this machine's sites that isn't a local one; RFC 6761 keeps its ending for tests."""
WITHOUT_SOUND = "window.AudioContext = window.webkitAudioContext = undefined"
"""A script for a page: sound's clock can't be sped up, without it the page's own keeps time."""
_ARGUMENTS = (
    "--no-sandbox",
    "--disable-quic",
    "--autoplay-policy=no-user-gesture-required",
    f"--host-resolver-rules=MAP {NAME} 127.0.0.1",
)


class _Quiet(http.server.SimpleHTTPRequestHandler):
    def log_message(self, *_args: object) -> None:
        """Say nothing."""


@contextmanager
def serve_folder(folder: Path, port: int = 0) -> Iterator[int]:
    """Serve a folder to this machine and give the port, any that is free unless one is named."""
    handler = functools.partial(_Quiet, directory=str(folder))
    with http.server.ThreadingHTTPServer(("127.0.0.1", port), handler) as server:
        threading.Thread(target=server.serve_forever, daemon=True).start()
        yield server.server_port
        server.shutdown()


def build_course(
    shelf: Path, project: Path, *, strict: bool = True, settings: str = SETTINGS
) -> Path:
    """Build the site of a project, without cards unless its settings ask; give its folder."""
    (project / "mkdocs.yml").write_text(settings, encoding="utf-8")
    return build_once(shelf, project, strict=strict)


@contextmanager
def serve_course(shelf: Path, project: Path, *, strict: bool = True) -> Iterator[str]:
    """Build the site of a project without cards and give its address while it is served."""
    with serve_folder(build_course(shelf, project, strict=strict)) as port:
        yield f"http://127.0.0.1:{port}/"


def stop_clock(page: Page) -> None:
    """Let a page's time pass only by the test's will, however slow the machine is."""
    page.clock.pause_at(MORNING + timedelta(hours=1))


def wait_until(page: Page, expression: str, seconds: float = 20) -> None:
    """Wait until an expression is true in a page; its policy lets nobody wait inside it."""
    end = time.monotonic() + seconds
    while not page.evaluate(expression):
        assert time.monotonic() < end, f"never true: {expression}"
        page.wait_for_timeout(20)


def note_faults(page: Page) -> list[str]:
    """Note from now on what scripts of a page complain of, or the console has as an error."""
    faults: list[str] = []
    page.on("pageerror", lambda error: faults.append(f"{page.url}: {error}"))
    page.on(
        "console",
        lambda message: (
            faults.append(f"{page.url}: {message.text}") if message.type == "error" else None
        ),
    )
    return faults


def find_port() -> int:
    """Find a port that nobody listens at, below those that systems give to whoever asks."""
    for port in range(20_000 + os.getpid() % 10_000, 32_768):
        with socket.socket() as tried:
            if tried.connect_ex(("127.0.0.1", port)):
                return port
    raise AssertionError("no port is free")


@contextmanager
def open_browser(*, safe_port: int = 0, letter_px: int = 0) -> Iterator[Browser]:
    """Give the machine's Chromium, in which sound needs no click first.

    A port named safe is one whose pages count as encrypted, as a site's on the web do. The size
    of letters is what a person sets in the browser; 16 pixels unless it is given.
    """
    safe = f"--unsafely-treat-insecure-origin-as-secure=http://{NAME}:{safe_port}"
    letters = f"--blink-settings=defaultFontSize={letter_px}"
    arguments = [*_ARGUMENTS, *([safe] if safe_port else []), *([letters] if letter_px else [])]
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=find_browser(), args=arguments)
        yield browser
        browser.close()


@contextmanager
def open_browser_without_storage(profile: Path) -> Iterator[BrowserContext]:
    """Give a Chromium whose owner lets no page keep anything."""
    (profile / "Default").mkdir(parents=True)
    settings = {"profile": {"default_content_setting_values": {"cookies": 2}}}
    (profile / "Default" / "Preferences").write_text(json.dumps(settings), encoding="utf-8")
    with sync_playwright() as playwright:
        context = playwright.chromium.launch_persistent_context(
            profile, executable_path=find_browser(), args=_ARGUMENTS
        )
        yield context
        context.close()
