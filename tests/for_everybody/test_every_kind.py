"""Every kind of page in every way that people look at it: nothing that axe or the eye minds."""

import pytest
from playwright.sync_api import Browser, Page

from builder.machine.browser import find_browser
from tests.for_everybody.judges import find_cut_off, space_out
from tests.for_everybody.rounds import NARROW, WIDE, judge

pytestmark = pytest.mark.skipif(find_browser() is None, reason="no Chromium on this machine")


def find_cut_off_when_spaced(page: Page) -> list[str]:
    space_out(page)
    return find_cut_off(page)


def test_light_and_with_text_spaced_out(browser: Browser, address: str) -> None:
    assert judge(browser, address, find_cut_off_when_spaced, viewport=WIDE) == ""


def test_dark_at_320_pixels(browser: Browser, address: str) -> None:
    assert judge(browser, address, viewport=NARROW, color_scheme="dark") == ""


def test_from_right_to_left(browser: Browser, mirrored: str) -> None:
    page = browser.new_page()
    page.goto(mirrored)
    assert page.evaluate("getComputedStyle(document.body).direction") == "rtl"
    page.close()
    assert judge(browser, mirrored, viewport=WIDE) == ""
