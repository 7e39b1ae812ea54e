"""Every kind of page in every way that people look at it: nothing that axe or the eye minds."""

from collections.abc import Callable

import pytest
from playwright.sync_api import Browser, Page

from builder.machine.browser import find_browser
from tests.browser_scripts.pages import open_browser
from tests.for_everybody.judges import ask_axe, find_cut_off, space_out
from tests.for_everybody.kinds import KINDS

WIDE = {"width": 1280, "height": 900}
NARROW = {"width": 320, "height": 640}
"""CSS pixels: WCAG 2.2, 1.4.10."""
pytestmark = pytest.mark.skipif(find_browser() is None, reason="no Chromium on this machine")


def judge(
    browser: Browser, address: str, also: Callable[[Page], list[str]] = find_cut_off, **ways: object
) -> str:
    """Bring about every kind of page in one window and return all that is minded."""
    context = browser.new_context(**ways)
    page = context.new_page()
    page.clock.install()
    faults = []
    for kind in KINDS:
        page.goto(address + kind.path)
        kind.act(page)
        faults += [f"{kind.name}: {fault}" for fault in (*ask_axe(page), *also(page))]
        page.evaluate("localStorage.clear(); sessionStorage.clear()")
        page.goto("about:blank")  # where only the anchor differs, it would stay the same page
    context.close()
    return "\n".join(faults)


def find_cut_off_when_spaced(page: Page) -> list[str]:
    space_out(page)
    return find_cut_off(page)


def test_light_and_with_text_spaced_out(browser: Browser, address: str) -> None:
    assert judge(browser, address, find_cut_off_when_spaced, viewport=WIDE) == ""


def test_dark_at_320_pixels(browser: Browser, address: str) -> None:
    assert judge(browser, address, viewport=NARROW, color_scheme="dark") == ""


def test_with_text_twice_as_large_and_colours_forced(address: str) -> None:
    with open_browser(letter_px=32) as browser:
        page = browser.new_page(forced_colors="active")
        page.goto(address)
        size = "getComputedStyle(document.querySelector('.md-content p')).fontSize"
        assert float(page.evaluate(size).removesuffix("px")) >= 2 * 16
        assert page.evaluate("matchMedia('(forced-colors: active)').matches")
        page.close()
        assert judge(browser, address, viewport=WIDE, forced_colors="active") == ""


def test_from_right_to_left(browser: Browser, mirrored: str) -> None:
    page = browser.new_page()
    page.goto(mirrored)
    assert page.evaluate("getComputedStyle(document.body).direction") == "rtl"
    page.close()
    assert judge(browser, mirrored, viewport=WIDE) == ""
