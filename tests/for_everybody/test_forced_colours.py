"""Where a person has chosen the colours, what colour or a ground would say is said by lines."""

from collections.abc import Iterator

import pytest
from playwright.sync_api import Browser, Locator, Page

from builder.machine.browser import find_browser
from tests.for_everybody.kinds import COUNTED, open_pacer

pytestmark = pytest.mark.skipif(find_browser() is None, reason="no Chromium on this machine")


@pytest.fixture(params=["light", "dark"])
def page(browser: Browser, request: pytest.FixtureRequest) -> Iterator[Page]:
    context = browser.new_context(forced_colors="active", color_scheme=request.param)
    yield context.new_page()
    context.close()


def style(element: Locator, name: str) -> str:
    value: str = element.evaluate("(e, name) => getComputedStyle(e)[name]", name)
    return value


def line_width(element: Locator) -> float:
    """Return how wide the line before something is, where it differs from its ground."""
    differs = style(element, "borderInlineStartColor") != style(element, "backgroundColor")
    width = float(style(element, "borderInlineStartWidth").removesuffix("px"))
    return width if differs else 0.0


def test_notices_keep_their_words_and_the_weight_of_their_lines(page: Page, address: str) -> None:
    page.goto(address + COUNTED)
    stop, note = (page.locator(f".tl-notice--{kind}").first for kind in ("stop", "note"))
    assert line_width(stop) > line_width(note) > 0
    assert style(page.locator(".tl-notice--adapt").first, "borderInlineStartStyle") == "double"
    assert stop.locator(".tl-notice__action").inner_text() == "Stop"
    assert style(page.locator(".tl-steps li").first, "counterIncrement") == "step 1"


def test_buttons_look_like_buttons(page: Page, address: str) -> None:
    page.goto(address + COUNTED)
    assert line_width(page.get_by_role("button", name="Practise now")) > 0
    open_pacer(page)
    for name in ("Begin", "Leave"):
        assert line_width(page.get_by_role("button", name=name)) > 0


def test_figures_stay_ink_on_paper(page: Page, address: str) -> None:
    page.goto(address + COUNTED)
    figure = page.locator(".tl-figure")
    colours = (style(figure, "color"), style(figure, "backgroundColor"))
    assert colours == ("rgb(29, 43, 42)", "rgb(251, 250, 246)")


def test_stops_and_arrows_of_the_map_stand_out(page: Page, address: str) -> None:
    page.goto(f"{address}map/")
    ground = style(page.locator("body"), "backgroundColor")
    for part in (".stop rect", ".arrow path"):
        assert style(page.locator(f".tl-map {part}").first, "stroke") not in {"none", ground}
    assert style(page.locator(".tl-map .stop text").first, "fill") != ground
