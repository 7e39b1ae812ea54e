"""The site by keyboard alone: each thing has a name and a mark, in the order of reading."""

from collections.abc import Iterator

import pytest
from playwright.sync_api import Browser, Page

from builder.machine.browser import find_browser
from tests.for_everybody.judges import Focus, learn_names, look_at_focus
from tests.for_everybody.kinds import COUNTED, KINDS, OWN_PACE, keep_some
from tests.for_everybody.rounds import NARROW, WIDE

WALKED = ("home", "lesson with figure and count", "map", "start here", "my practice, empty")
MOST_STEPS = 400
pytestmark = pytest.mark.skipif(find_browser() is None, reason="no Chromium on this machine")


@pytest.fixture
def page(browser: Browser) -> Iterator[Page]:
    context = browser.new_context(viewport=WIDE, reduced_motion="reduce")
    yield context.new_page()
    context.close()


def walk(page: Page, key: str = "Tab") -> list[Focus]:
    """Press a key until the focus leaves the page, or is where it began."""
    learn_names(page)
    found: list[Focus] = []
    while len(found) < MOST_STEPS:
        page.keyboard.press(key)
        at = look_at_focus(page)
        if at is None or (found and (at.id, at.top) == (found[0].id, found[0].top)):
            return found
        found.append(at)
    raise AssertionError(f"no way out of {page.url}")


def press_until(page: Page, name: str) -> None:
    """Tab to the next thing of a name."""
    learn_names(page)
    for _ in range(MOST_STEPS):
        page.keyboard.press("Tab")
        at = look_at_focus(page)
        if at and at.name.startswith(name):
            return
    raise AssertionError(f"{name} can't be reached on {page.url}")


def focused(page: Page) -> str:
    words: str = page.evaluate("document.activeElement.textContent.trim()")
    return words


@pytest.mark.parametrize("viewport", [WIDE, NARROW], ids=["wide", "narrow"])
@pytest.mark.parametrize("name", WALKED)
def test_each_focus_has_a_name_and_is_seen_in_the_order_of_reading(
    page: Page, address: str, name: str, viewport: dict
) -> None:
    """WCAG 2.2: 2.1.2, 2.4.3, 2.4.7, 2.4.11 and 4.1.2."""
    page.set_viewport_size(viewport)
    page.goto(address + next(kind.path for kind in KINDS if kind.name == name))
    page.wait_for_load_state("networkidle")
    there = walk(page)
    assert len(there) > 6
    for way in (there, walk(page, "Shift+Tab")):
        assert "\n".join(at.id for at in way if not at.name) == ""
        assert "\n".join(at.id for at in way if not at.is_marked) == ""
        assert "\n".join(f"{at.top} {at.id}" for at in way if not at.is_seen) == ""
    inside = [at for at in there if at.in_article]
    in_lines = [at for at in inside if 'class="stop' not in at.id]  # the map has two directions
    assert in_lines == sorted(in_lines, key=lambda at: at.top // 8)
    assert there[0].name == "Skip to content"


def test_the_skip_link_leads_to_the_lesson(page: Page, address: str) -> None:
    page.goto(address + COUNTED)
    page.keyboard.press("Tab")
    page.keyboard.press("Enter")
    page.keyboard.press("Tab")
    learn_names(page)
    at = look_at_focus(page)
    assert at is not None
    assert (at.in_article, at.name) == (True, "Tempo")


@pytest.mark.parametrize("viewport", [WIDE, NARROW], ids=["wide", "narrow"])
def test_search_leads_to_a_lesson(page: Page, address: str, viewport: dict) -> None:
    page.set_viewport_size(viewport)
    page.goto(address)
    press_until(page, "Search")
    if viewport is NARROW:
        page.keyboard.press("Enter")
    page.wait_for_timeout(300)
    page.keyboard.type("box breathing")
    # Results come letter by letter, and each time the list is made anew.
    page.locator(".md-search-result__link[href*='box+breathing']").first.wait_for()
    assert "matching" in page.locator(".md-search [role=status]").inner_text()
    page.keyboard.press("ArrowDown")
    page.keyboard.press("Enter")
    page.wait_for_url(f"**/{COUNTED}**")


def test_escape_shuts_the_search_and_the_focus_stays_there(page: Page, address: str) -> None:
    page.set_viewport_size(NARROW)
    page.goto(address)
    press_until(page, "Search")
    page.keyboard.press("Enter")
    page.locator(".md-search__input:focus").wait_for()
    page.keyboard.press("Escape")
    page.locator("button[for=__search]:focus").wait_for()


def test_the_menu_opens_leads_on_and_shuts(page: Page, address: str) -> None:
    page.set_viewport_size(NARROW)
    page.goto(address + COUNTED)
    press_until(page, "Navigation")
    menu = page.get_by_role("button", name="Navigation")
    assert menu.get_attribute("aria-expanded") == "false"
    page.keyboard.press("Enter")
    assert menu.get_attribute("aria-expanded") == "true"
    press_until(page, "Box breathing")
    page.keyboard.press("Enter")
    press_until(page, "Cautions")
    page.keyboard.press("Escape")
    page.locator("button[for=__drawer]:focus").wait_for()
    assert menu.get_attribute("aria-expanded") == "false"


def test_a_section_of_the_menu_leads_back_to_all(page: Page, address: str) -> None:
    page.set_viewport_size(NARROW)
    page.goto(f"{address}lessons/tempo/")
    press_until(page, "Navigation")
    page.keyboard.press("Enter")
    press_until(page, "Tempo")
    assert page.locator(".md-nav__title:focus").count() == 1
    page.keyboard.press("Enter")
    page.locator("button.md-nav__link[aria-label=Tempo]:focus").wait_for()
    press_until(page, "All fours")


def test_the_pacer_opens_keeps_the_focus_and_gives_it_back(page: Page, address: str) -> None:
    page.goto(address + OWN_PACE)
    press_until(page, "Practise now")
    page.keyboard.press("Enter")
    page.locator(".tl-pacer[open]").wait_for()
    assert page.evaluate("document.activeElement.closest('dialog') !== null")
    learn_names(page)
    for _ in range(12):
        page.keyboard.press("Tab")
        at = look_at_focus(page)  # the browser's own buttons may come between
        assert at is None or page.evaluate("document.activeElement.closest('dialog') !== null")
    page.keyboard.press("Escape")
    page.locator(".tl-pacer[open]").wait_for(state="hidden")
    assert focused(page) == "Practise now"


def test_start_here_is_answered(page: Page, address: str) -> None:
    page.goto(f"{address}start-here/")
    press_until(page, "None of them")
    while not page.locator("[data-tl-result]").is_visible():
        page.keyboard.press("Space")
        press_until(page, page.locator("[data-tl-on]").inner_text())
        page.keyboard.press("Enter")
        if page.locator("[data-tl-timed]").is_visible():
            press_until(page, "I leave this out")
    assert focused(page) == "Where you may start"
    press_until(page, "Ready to start")


def test_my_practice_is_erased(page: Page, address: str) -> None:
    page.goto(f"{address}my-practice/")
    keep_some(page)
    press_until(page, "Erase everything")
    page.keyboard.press("Enter")
    press_until(page, "Yes, erase it now")
    page.keyboard.press("Enter")
    page.get_by_text("No practice has been noted yet.").wait_for()
    assert page.evaluate("document.activeElement !== document.body")


def test_controls_of_ours_are_large_enough(page: Page, address: str) -> None:
    """At least 24 by 24 CSS pixels: WCAG 2.2, 2.5.8. Links in sentences are left out there."""
    small = """(least) => [...document.querySelectorAll(
        "article :is(button, input, textarea, summary), .md-header__button")]
      .filter((element) => element.checkVisibility({ visibilityProperty: true }))
      .map((element) => [element, (element.closest("label") || element).getBoundingClientRect()])
      .filter(([, box]) => Math.min(box.width, box.height) < least)
      .map(([element]) => element.outerHTML)"""
    page.set_viewport_size(NARROW)
    for kind in KINDS:
        if kind.name.startswith(("pacer", "my practice", "start here", "lesson")):
            page.goto("about:blank")
            page.goto(address + kind.path)
            page.clock.install()
            kind.act(page)
            assert (kind.name, page.evaluate(small, 24)) == (kind.name, [])
            page.evaluate("localStorage.clear(); sessionStorage.clear()")
