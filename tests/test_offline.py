"""A site without a signal: its server stopped, from a folder of a host, and as editions follow."""

import shutil
from collections.abc import Iterator
from contextlib import ExitStack
from dataclasses import dataclass, field
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page

from builder.machine.browser import find_browser
from builder.publishing.site.offline import WORKER, write_worker
from builder.work.folder_files import FolderFiles
from tests.browser_scripts.pages import (
    NAME,
    build_course,
    note_faults,
    serve_folder,
    wait_until,
)
from tests.conftest import copy_small_course

pytestmark = pytest.mark.skipif(find_browser() is None, reason="no Chromium on this machine")
LESSON = "lessons/count/short-hold/"
SOUND = bytes(range(256)) * 40


@dataclass
class Host:
    """A host that serves a site from a folder of its own, and may be switched off."""

    root: Path
    port: int
    running: ExitStack = field(default_factory=ExitStack)

    @property
    def site(self) -> Path:
        return self.root / "studio" / "course"

    @property
    def address(self) -> str:
        return f"http://{NAME}:{self.port}/studio/course/"

    def switch_on(self) -> None:
        self.port = self.running.enter_context(serve_folder(self.root, self.port))

    def switch_off(self) -> None:
        self.running.close()


@pytest.fixture
def host(shelf: Path, tmp_path: Path, safe_port: int) -> Iterator[Host]:
    made = Host(tmp_path / "host", safe_port)
    site = build_course(shelf, copy_small_course(tmp_path / "project"))
    shutil.copytree(site, made.site)
    (made.site / "tracks").mkdir()
    (made.site / "tracks" / "soft.flac").write_bytes(SOUND)
    (made.site / "cards").mkdir()
    (made.site / "cards" / "short-hold.pdf").write_bytes(b"%PDF-1.7 a card")
    write_worker(FolderFiles(made.site))
    made.switch_on()
    yield made
    made.switch_off()


@pytest.fixture
def page(host: Host, safe_browser: Browser) -> Iterator[Page]:
    with safe_browser.new_context(viewport={"width": 360, "height": 640}) as visitor:
        yield visitor.new_page()


def visit(page: Page, address: str) -> None:
    page.goto(address)
    page.evaluate("navigator.serviceWorker.ready")
    wait_until(page, "navigator.serviceWorker.controller !== null")


def test_after_a_first_visit_every_page_opens_without_its_host(page: Page, host: Host) -> None:
    faults = note_faults(page)
    visit(page, host.address)
    host.switch_off()
    for path in ("", LESSON, "map/", "safety/", "my-practice/", f"{LESSON}?from=card"):
        page.goto(host.address + path)
        assert page.locator("h1").is_visible()
    page.goto(host.address + LESSON.rstrip("/"))
    assert page.url == host.address + LESSON
    assert page.evaluate("document.fonts.check('16px \"Tempoleaf Sans\"')")
    assert page.locator(".tl-caution").is_visible()
    assert faults == []
    page.goto(f"{host.address}no/such/page/")
    assert "404" in page.locator("h1").inner_text()


def test_search_works_without_the_host(page: Page, host: Host) -> None:
    visit(page, host.address)
    host.switch_off()
    page.goto(host.address)
    page.locator(".md-header__button[for=__search]").click()
    page.get_by_role("textbox").press_sequentially("short hold")
    link = page.locator(".md-search-result__link").first
    link.wait_for()
    assert LESSON in (link.get_attribute("href") or "")


def test_a_newer_edition_is_told_and_shown_only_whole(page: Page, host: Host) -> None:
    visit(page, host.address + LESSON)
    following = shutil.copytree(host.site, host.root.parent / "following")
    lesson, other = following / LESSON / "index.html", following / "map" / "index.html"
    lesson.write_text(lesson.read_text("utf-8").replace("Short hold", "Shorter hold"), "utf-8")
    other.write_text(f"{other.read_text('utf-8')}<!-- changed too -->", "utf-8")
    write_worker(FolderFiles(following))
    (host.site / "map" / "index.html").unlink()  # one page is still on its way to the host
    for path in (f"{LESSON}index.html", WORKER):
        shutil.copy(following / path, host.site / path)
    page.goto(host.address + LESSON)
    page.wait_for_timeout(1500)
    assert page.locator("h1").inner_text() == "Short hold"
    assert not page.locator(".tl-newer").is_visible()
    shutil.copy(other, host.site / "map" / "index.html")
    page.evaluate("navigator.serviceWorker.getRegistration().then((one) => one.update())")
    page.get_by_role("button", name="Show it").click()
    page.locator("h1", has_text="Shorter hold").wait_for()
    host.switch_off()
    page.goto(host.address + LESSON)
    assert page.locator("h1").inner_text() == "Shorter hold"
    assert len(page.evaluate("caches.keys()")) == 2  # one edition, and what is kept on request


def test_sounds_and_cards_are_kept_on_request_with_their_size(page: Page, host: Host) -> None:
    visit(page, f"{host.address}my-practice/")
    sound = f"{host.address}tracks/soft.flac"
    page.get_by_role("button", name="Keep the practice sounds, 0.0 MB").click()
    page.get_by_text("The practice sounds are kept on this device.").wait_for()
    host.switch_off()
    ask = "(a) => fetch(a, {headers: {range: 'bytes=100-199'}}).then(async (r) => [r.status, "
    ask += "r.headers.get('content-range'), [...new Uint8Array(await r.arrayBuffer())]])"
    status, place, part = page.evaluate(ask, sound)
    assert (status, place) == (206, f"bytes 100-199/{len(SOUND)}")
    assert bytes(part) == SOUND[100:200]
    page.reload()
    page.get_by_text("The practice sounds are kept on this device.").wait_for()
    page.get_by_role("button", name="Keep the cards to print, 0.0 MB").click()
    page.get_by_text("That didn't work: there is no signal").wait_for()


def test_an_old_card_is_not_kept_beside_a_new_edition(page: Page, host: Host) -> None:
    visit(page, f"{host.address}my-practice/")
    page.get_by_role("button", name="Keep the cards to print, 0.0 MB").click()
    page.get_by_text("The cards to print are kept on this device.").wait_for()
    (host.site / "cards" / "short-hold.pdf").write_bytes(b"%PDF-1.7 a card with a caution")
    write_worker(FolderFiles(host.site))
    page.evaluate("navigator.serviceWorker.getRegistration().then((one) => one.update())")
    page.get_by_role("button", name="Show it").wait_for()
    card = f"{host.address}cards/short-hold.pdf"
    wait_until(
        page, f"caches.match('{card}').then((one) => one?.text()).then((t) => /caution/.test(t))"
    )
    host.switch_off()
    text = page.evaluate("(a) => fetch(a).then((r) => r.text())", card)
    assert text == "%PDF-1.7 a card with a caution"


def test_a_preview_on_this_machine_keeps_nothing(page: Page, host: Host) -> None:
    page.goto(host.address.replace(NAME, "127.0.0.1"))
    page.wait_for_timeout(1000)
    registrations = "navigator.serviceWorker.getRegistrations().then((all) => all.length)"
    assert page.evaluate(registrations) == 0
