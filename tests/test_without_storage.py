"""A browser whose owner lets no page keep anything: all works, and nobody is told otherwise."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import BrowserContext, Page

from builder.machine.browser import find_browser
from tests.browser_scripts.pages import (
    MORNING,
    WITHOUT_SOUND,
    note_faults,
    open_browser_without_storage,
    serve_course,
    stop_clock,
)
from tests.conftest import copy_small_course

pytestmark = pytest.mark.skipif(find_browser() is None, reason="no Chromium on this machine")
LESSON = "lessons/count/plain-count/"
UNKEPT = "This device won't keep it: it is full, or this is a private window."


@pytest.fixture(scope="module")
def address(shelf: Path, tmp_path_factory: pytest.TempPathFactory) -> Iterator[str]:
    project = copy_small_course(tmp_path_factory.mktemp("unkept") / "project")
    with serve_course(shelf, project) as site:
        yield site


@pytest.fixture(scope="module")
def context(tmp_path_factory: pytest.TempPathFactory) -> Iterator[BrowserContext]:
    profile = tmp_path_factory.mktemp("unkept") / "profile"
    with open_browser_without_storage(profile) as opened:
        opened.add_init_script(WITHOUT_SOUND)
        yield opened


@pytest.fixture
def page(context: BrowserContext) -> Iterator[Page]:
    opened = context.new_page()
    faults = note_faults(opened)
    yield opened
    opened.close()
    assert faults == []


def test_the_browser_keeps_nothing_indeed(page: Page, address: str) -> None:
    page.goto(address)
    assert page.evaluate("localStorage instanceof Storage") is False  # the theme's, which forgets
    page.evaluate("localStorage.setItem('a', 'b'); document.cookie = 'a=b'")
    page.reload()
    assert page.evaluate("[localStorage.getItem('a'), document.cookie]") == [None, ""]


def test_the_theme_searches_all_the_same(page: Page, address: str) -> None:
    page.set_viewport_size({"width": 360, "height": 640})
    page.goto(address)
    page.locator(".md-header__button[for=__search]").click()
    page.get_by_role("textbox").press_sequentially("short hold")
    link = page.locator(".md-search-result__link").first
    link.wait_for()
    assert "short-hold" in (link.get_attribute("href") or "")


def test_a_practice_runs_to_its_end_and_says_that_it_is_not_kept(page: Page, address: str) -> None:
    page.clock.install(time=MORNING)
    page.goto(address + LESSON)
    page.get_by_role("button", name="Practise now").click()
    stop_clock(page)
    page.get_by_role("button", name="Begin").click()
    page.clock.run_for(5_000 + 2 * 60_000 + 30_000 + 100)
    page.get_by_role("button", name="Ready: it went as the lesson says").click()
    assert page.locator(".tl-pacer__kept").inner_text() == UNKEPT


def test_ticks_and_pages_of_lists_do_no_harm(page: Page, address: str) -> None:
    page.goto(address + LESSON)
    page.locator("[data-tl-tick]").first.check()
    page.get_by_label("Your own notes on this lesson").fill("Calm.")
    page.get_by_label("Your own notes on this lesson").blur()
    page.goto(f"{address}map/")
    assert page.locator(".tl-mark").count() == 0
    page.goto(f"{address}my-practice/")
    assert page.get_by_text("No practice has been noted yet.").is_visible()


def test_a_file_is_shown_and_said_not_to_be_kept(page: Page, address: str, tmp_path: Path) -> None:
    file = tmp_path / "mine.json"
    row = '{"lesson": "plain-count", "on": "2026-11-25", "outcome": "ready"}'
    file.write_text(f'{{"version": 1, "log": [{row}]}}', encoding="utf-8")
    page.goto(f"{address}my-practice/")
    page.get_by_label("Add what is in a file").set_input_files(file)
    page.get_by_text("Added: 1 practice").wait_for()
    assert UNKEPT in page.locator("[data-tl-told]").inner_text()
    assert page.locator("[data-tl-log] a").text_content() == "Plain count"
