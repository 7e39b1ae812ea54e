"""A round through every kind of page, in one way of looking at it."""

from collections.abc import Callable

from playwright.sync_api import Browser, Page

from tests.for_everybody.judges import ask_axe, find_cut_off
from tests.for_everybody.kinds import KINDS

WIDE = {"width": 1280, "height": 900}
NARROW = {"width": 320, "height": 640}
"""CSS pixels: WCAG 2.2, 1.4.10."""


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
