"""The finished site in a browser: what a learner sees, and what the browser asks for."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page

from builder.machine.browser import find_browser
from tests.browser_scripts.pages import serve_course
from tests.conftest import copy_small_course

LESSON = "lessons/count/short-hold/"
PAGES = ("", "map/", "lessons/count/", LESSON, "safety/", "props/", "coaches/", "authors/")
pytestmark = pytest.mark.skipif(find_browser() is None, reason="no Chromium on this machine")


@pytest.fixture(scope="module")
def address(shelf: Path, tmp_path_factory: pytest.TempPathFactory) -> Iterator[str]:
    """Build the small course and serve it to this machine only."""
    project = copy_small_course(tmp_path_factory.mktemp("browser") / "project")
    with serve_course(shelf, project) as site:
        yield site


@pytest.fixture
def page(browser: Browser) -> Iterator[Page]:
    context = browser.new_context(viewport={"width": 320, "height": 640})
    yield context.new_page()
    context.close()


def test_no_page_asks_anybody_else_for_anything(page: Page, address: str) -> None:
    asked: list[str] = []
    faults: list[str] = []
    page.on("request", lambda request: asked.append(request.url))
    page.on("pageerror", lambda error: faults.append(str(error)))
    for path in PAGES:
        page.goto(address + path)
        page.wait_for_load_state("networkidle")
    outside = {url for url in asked if not url.startswith((address, "data:", "blob:"))}
    assert (outside, faults) == (set(), [])


def test_a_script_that_the_page_does_not_bring_is_not_run(page: Page, address: str) -> None:
    faults: list[str] = []
    page.on("console", lambda message: faults.append(message.text))
    page.goto(address + LESSON)
    ran = page.evaluate(
        """() => {
          const script = document.createElement("script");
          script.textContent = "window.wasRun = true";
          document.head.append(script);
          return window.wasRun === true;
        }"""
    )
    assert ran is False
    assert any("Content Security Policy" in fault for fault in faults)


def test_no_page_keeps_cookies(page: Page, address: str) -> None:
    for path in PAGES:
        page.goto(address + path)
    assert page.context.cookies() == []


@pytest.mark.parametrize("path", PAGES)
def test_nothing_slides_sideways_at_320_pixels(page: Page, address: str, path: str) -> None:
    """Reflow at a width of 320 CSS pixels: WCAG 2.2, success criterion 1.4.10."""
    page.goto(address + path)
    assert page.evaluate("document.documentElement.scrollWidth") <= 320


def test_the_sites_own_typeface_is_used(page: Page, address: str) -> None:
    page.goto(address + LESSON)
    assert page.evaluate(
        "document.fonts.ready.then(() => document.fonts.check('16px \"Tempoleaf Sans\"'))"
    )
    loaded = page.evaluate(
        "Array.from(document.fonts).filter(f => f.status === 'loaded').map(f => f.family)"
    )
    assert any("Tempoleaf Sans" in family for family in loaded)
    assert not any("Source Sans 3" in family for family in loaded)  # no sign here needs it
    stack = page.evaluate("getComputedStyle(document.body).fontFamily")
    assert stack.startswith('"Tempoleaf Sans", "Source Sans 3"')


def test_search_finds_a_lesson(page: Page, address: str) -> None:
    page.goto(address)
    page.locator(".md-header__button[for=__search]").click()
    page.get_by_role("textbox").press_sequentially("short hold")
    link = page.locator(".md-search-result__link").first
    link.wait_for()
    assert LESSON in (link.get_attribute("href") or "")


def test_ticks_stay_on_the_device_and_show_on_the_map(page: Page, address: str) -> None:
    page.goto(address + LESSON)
    page.get_by_role("checkbox", name="Five breaths go by").check()
    page.reload()
    assert page.get_by_role("checkbox", name="Five breaths go by").is_checked()
    page.goto(address + "map/")
    done = page.locator(".tl-map-list [data-tl-stop=short-hold] .tl-mark")
    assert done.inner_text() == "✓ ready"
    page.goto(address + LESSON)
    page.get_by_role("checkbox", name="Five breaths go by").uncheck()
    page.goto(address + "map/")
    assert page.locator(".tl-mark").count() == 0


def test_boxes_are_large_enough_to_hit(page: Page, address: str) -> None:
    """At least 24 by 24 CSS pixels: WCAG 2.2, success criterion 2.5.8."""
    page.goto(address + LESSON)
    box = page.locator("[data-tl-tick]").first.bounding_box()
    assert box is not None
    assert min(box["width"], box["height"]) >= 24


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_each_scheme_follows_the_device(browser: Browser, address: str, scheme: str) -> None:
    context = browser.new_context(color_scheme="dark" if scheme == "dark" else "light")
    page = context.new_page()
    page.goto(address + LESSON)
    ground = page.evaluate("getComputedStyle(document.body).backgroundColor")
    context.close()
    brightness = sum(int(part) for part in ground.strip("rgb()").split(",")) / 3
    assert (brightness < 60) == (scheme == "dark")


def test_the_parts_of_the_theme_have_names(page: Page, address: str) -> None:
    """Dialogs need a name: WAI-ARIA 1.2, role dialog."""
    page.goto(address)
    dialogs = page.locator("[role=dialog]")
    assert dialogs.count() > 0
    assert [d.get_attribute("aria-label") for d in dialogs.all()] == ["Search"] * dialogs.count()


def test_print_hides_the_frame_and_keeps_the_cautions(page: Page, address: str) -> None:
    page.goto(address + LESSON)
    page.emulate_media(media="print")
    assert not page.locator(".md-header").is_visible()
    assert page.locator(".tl-notices").is_visible()
    assert page.locator(".tl-caution").is_visible()


def test_a_lesson_reads_without_scripts(browser: Browser, address: str) -> None:
    context = browser.new_context(java_script_enabled=False)
    page = context.new_page()
    page.goto(address + LESSON)
    assert page.locator(".tl-steps li").first.is_visible()
    assert page.locator("[data-tl-tick]").first.is_enabled()
    context.close()


def test_the_map_can_be_walked_by_keyboard(page: Page, address: str, tmp_path: Path) -> None:
    page.goto(address + "map/")
    page.locator(".tl-map svg a").first.focus()
    page.keyboard.press("Enter")
    page.wait_for_url("**/lessons/**")
    assert page.locator("h1").inner_text() != ""
