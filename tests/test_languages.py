"""A course in two languages on a host and from a disk: each page finds its other self."""

import shutil
from collections.abc import Iterator
from contextlib import ExitStack
from pathlib import Path
from urllib.parse import urljoin

import pytest
from playwright.sync_api import Browser, Page

from builder.cli.release_command import release
from builder.course.audience import Audience
from builder.machine.browser import find_browser
from builder.mkdocs_parts import Order
from builder.mkdocs_plugin import build_site
from builder.publishing.site.disk import zip_site
from builder.reading.course_folder import read_course
from builder.sums.version import find_version
from tests.browser_scripts.pages import (
    NAME,
    SETTINGS,
    build_course,
    note_faults,
    serve_folder,
    wait_until,
)
from tests.conftest import copy_small_course
from tests.spanish import change, speak_spanish

pytestmark = pytest.mark.skipif(find_browser() is None, reason="no Chromium on this machine")
BELLY, HOLD = "lessons/breath/hand-on-belly/", "lessons/count/short-hold/"


@pytest.fixture(scope="module")
def project(shelf: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    root = speak_spanish(copy_small_course(tmp_path_factory.mktemp("two") / "project"))
    for language in ("", "es"):
        release(root, language=language)
    build_course(shelf, root)
    return root


@pytest.fixture
def host(project: Path, tmp_path: Path, safe_port: int) -> Iterator[tuple[str, ExitStack]]:
    """Serve the site from a folder of a host; give its address, and what stops the host."""
    shutil.copytree(project / "site", tmp_path / "host" / "course")
    with ExitStack() as running:
        port = running.enter_context(serve_folder(tmp_path / "host", safe_port))
        yield f"http://{NAME}:{port}/course/", running


@pytest.fixture
def page(safe_browser: Browser) -> Iterator[Page]:
    with safe_browser.new_context(viewport={"width": 320, "height": 640}) as visitor:
        yield visitor.new_page()


def visit(page: Page, address: str) -> None:
    page.goto(address)
    page.evaluate("navigator.serviceWorker.ready")
    wait_until(page, "navigator.serviceWorker.controller !== null")


def test_a_page_leads_to_itself_in_the_other_language(
    page: Page, host: tuple[str, ExitStack]
) -> None:
    page.goto(host[0] + BELLY)
    page.get_by_role("link", name="Español").click()
    assert page.url == f"{host[0]}es/{BELLY}"
    assert page.locator("html").get_attribute("lang") == "es"
    assert page.locator("h1").inner_text() == "La mano en el vientre"
    page.get_by_role("link", name="English").click()
    assert page.url == host[0] + BELLY


def test_a_page_that_is_missing_there_leads_to_that_home(
    page: Page, host: tuple[str, ExitStack]
) -> None:
    page.goto(host[0] + HOLD)
    assert page.locator("link[hreflang]").count() == 0
    page.get_by_role("link", name="Español").click()
    assert page.url == f"{host[0]}es/"


def test_search_engines_are_told_of_the_other_language(
    page: Page, host: tuple[str, ExitStack]
) -> None:
    page.goto(host[0] + BELLY)
    link = page.locator('link[rel~="alternate"][hreflang="es"]')
    assert urljoin(page.url, link.get_attribute("href") or "") == f"{host[0]}es/{BELLY}"


def test_each_language_keeps_itself_for_want_of_a_signal(
    page: Page, host: tuple[str, ExitStack]
) -> None:
    faults = note_faults(page)
    visit(page, f"{host[0]}es/")
    host[1].close()
    for path in ("", BELLY, "map/", "safety/", "my-practice/"):
        page.goto(f"{host[0]}es/{path}")
        assert page.locator("html").get_attribute("lang") == "es"
        assert page.locator("h1").is_visible()
    assert faults == []
    with pytest.raises(Exception, match="ERR_"):
        page.goto(host[0] + HOLD)


def test_what_was_practised_counts_in_every_language(
    page: Page, host: tuple[str, ExitStack]
) -> None:
    page.goto(host[0] + BELLY)
    page.locator("[data-tl-tick]").first.check()
    page.evaluate('tempoleaf.practice.record("hand-on-belly", "ready", new Date())')
    page.goto(f"{host[0]}es/{BELLY}")
    assert page.locator("[data-tl-tick]").first.is_checked()
    page.goto(f"{host[0]}es/my-practice/")
    assert "La mano en el vientre" in (page.locator("[data-tl-log]").text_content() or "")


def test_an_old_spanish_card_is_told_in_spanish(
    page: Page, host: tuple[str, ExitStack], project: Path
) -> None:
    course = read_course(project).course
    assert course
    spanish = course.translations["es"]
    code = find_version(spanish, spanish.by_id["hand-on-belly"], Audience.CLIENT)
    assert code != find_version(course, course.by_id["hand-on-belly"], Audience.CLIENT)
    page.goto(f"{host[0]}es/{BELLY}#card={code}")
    assert page.locator("[data-tl-age-is=current]").is_visible()
    assert "Tu ficha está al día" in page.locator("[data-tl-age]").inner_text()


def test_a_changed_notice_makes_the_spanish_card_old(tmp_path: Path) -> None:
    root = speak_spanish(copy_small_course(tmp_path / "project"))
    release(root, language="es")
    before = read_course(root).course
    change(root / "content/notices/floor.es.md", "Usa una silla", "Usa una silla firme")
    release(root, language="es", why="Una silla firme.")
    after = read_course(root).course
    assert before
    assert after
    editions = before.translations["es"], after.translations["es"]
    first, second = (
        find_version(course, course.by_id["wide-ribs"], Audience.CLIENT) for course in editions
    )
    assert first != second
    ledger = after.translations["es"].ledger
    assert ledger
    assert [r.why for r in ledger.by_card["wide-ribs", Audience.CLIENT]] == [
        "Primera versión.",
        "Una silla firme.",
    ]
    assert after.ledger is None


def test_both_languages_open_from_a_disk(
    project: Path, tmp_path: Path, safe_browser: Browser
) -> None:
    (project / "mkdocs.yml").write_text(SETTINGS, encoding="utf-8")
    folder = tmp_path / "for-disk"
    order = Order(project / "mkdocs.yml", is_strict=True, is_for_disk=True)
    assert build_site(order, folder) == ()
    zip_site(folder, tmp_path / "course.zip", "course")
    shutil.unpack_archive(tmp_path / "course.zip", tmp_path / "unpacked")
    with safe_browser.new_context() as visitor:
        page = visitor.new_page()
        faults = note_faults(page)
        page.goto((tmp_path / "unpacked/course/index.html").as_uri())
        page.get_by_role("link", name="Español").click()
        assert page.url.endswith("/es/index.html")
        page.goto(page.url.replace("index.html", f"{BELLY[:-1]}.html"))
        assert page.locator("h1").inner_text() == "La mano en el vientre"
        page.get_by_role("link", name="English").click()
        assert page.url.endswith(f"course/{BELLY[:-1]}.html")
        assert faults == []
