"""Every kind of page for a person who has set large letters and colours of their own."""

from collections.abc import Iterator

import pytest
from playwright.sync_api import Browser

from builder.machine.browser import find_browser
from tests.browser_scripts.pages import open_browser
from tests.for_everybody.rounds import WIDE, judge

pytestmark = pytest.mark.skipif(find_browser() is None, reason="no Chromium on this machine")


@pytest.fixture(scope="module")
def browser() -> Iterator[Browser]:
    """Give a browser whose letters are twice as large as usual: WCAG 2.2, 1.4.4."""
    with open_browser(letter_px=32) as started:
        yield started


def test_with_text_twice_as_large_and_colours_forced(browser: Browser, address: str) -> None:
    page = browser.new_page(forced_colors="active")
    page.goto(address)
    size = "getComputedStyle(document.querySelector('.md-content p')).fontSize"
    assert float(page.evaluate(size).removesuffix("px")) >= 2 * 16
    assert page.evaluate("matchMedia('(forced-colors: active)').matches")
    page.close()
    assert judge(browser, address, viewport=WIDE, forced_colors="active") == ""
