"""The self-check in a browser: a clinician first, then questions, a timed hold, and a start."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Locator, Page

from builder.machine.browser import find_browser
from tests.browser_scripts.pages import MORNING, note_faults, serve_course, stop_clock
from tests.conftest import copy_small_course

TABLE = """\
ask_first: [You feel ill today, You are pregnant]
questions:
  - {id: moves, text: First?, lesson: hand-on-belly, answers: {belly: Belly, chest: Chest}}
  - {id: hold, text: A comfortable hold, timed: true}
start:
  - strand: breath
    ways: [{lesson: hand-on-belly, why: It is the first.}]
  - strand: count
    ways:
      - {when: {hold: {least: 8}}, lesson: short-hold, why: Your hold was long enough.}
      - {when: {moves: [chest]}, why: The belly comes first.}
      - {lesson: plain-count, why: It is the first count.}
"""
HIDE = """() => {
  Object.defineProperty(document, "hidden", { value: true, configurable: true });
  document.dispatchEvent(new Event("visibilitychange"));
}"""
pytestmark = pytest.mark.skipif(find_browser() is None, reason="no Chromium on this machine")


@pytest.fixture(scope="module")
def address(shelf: Path, tmp_path_factory: pytest.TempPathFactory) -> Iterator[str]:
    project = copy_small_course(tmp_path_factory.mktemp("start") / "project")
    (project / "content" / "placement.yml").write_text(TABLE, encoding="utf-8")
    with serve_course(shelf, project, strict=False) as site:
        yield f"{site}start-here/"


@pytest.fixture
def page(browser: Browser, address: str) -> Iterator[Page]:
    context = browser.new_context(viewport={"width": 320, "height": 640})
    page = context.new_page()
    faults = note_faults(page)
    page.clock.install(time=MORNING)
    page.goto(address)
    stop_clock(page)
    yield page
    assert page.evaluate("document.documentElement.scrollWidth") <= 320
    assert page.evaluate("Object.keys(localStorage).filter((k) => k.includes('check'))") == []
    context.close()
    assert faults == []


def go_on(page: Page, answer: str) -> None:
    page.get_by_label(answer, exact=True).check()
    page.locator("[data-tl-on]").click()


def test_one_yes_leads_to_a_clinician_and_to_no_lesson(page: Page) -> None:
    assert page.locator("[data-tl-on]").is_disabled()
    go_on(page, "One or more, or I am not sure")
    assert page.get_by_role("heading", name="Ask a clinician first").is_visible()
    assert page.evaluate("document.activeElement.textContent") == "Ask a clinician first"
    assert page.locator("[data-tl-result] ol a").count() == 0
    assert not page.get_by_role("heading", name="Where you may start").is_visible()


def test_answers_lead_to_a_start_in_each_strand_with_its_reason(page: Page) -> None:
    go_on(page, "None of them")
    go_on(page, "Chest")
    go_on(page, "I leave this out today")
    assert page.locator("[data-tl-start] a").all_inner_texts() == ["Hand on the belly"]
    assert page.evaluate("document.activeElement.textContent") == "Where you may start"
    assert "The belly comes first." in page.locator("[data-tl-wait]").inner_text()
    assert "none of" not in page.locator("[data-tl-result]").inner_text()


def test_a_hold_is_timed_in_up_to_three_tries_with_a_minute_between(page: Page) -> None:
    go_on(page, "None of them")
    go_on(page, "Belly")
    button = page.locator("[data-tl-hold]")
    assert button.is_disabled()  # not right after fast breathing
    assert page.get_by_text("Never in or near water").is_visible()
    page.get_by_label("In the last five minutes I have breathed normally").check()
    for seconds in (6, 9, 7):
        button.click()
        assert page.locator("[data-tl-on]").is_disabled()
        page.clock.run_for(seconds * 1000 + 50)
        button.click()
        assert button.is_disabled()
        page.clock.run_for(61_000)
    assert button.is_disabled()  # three tries are all
    assert page.get_by_text("Tries: 6 s, 9 s, 7 s. That is all for today.").is_visible()
    page.locator("[data-tl-on]").click()
    assert page.locator("[data-tl-start] a").all_inner_texts() == [
        "Hand on the belly",
        "Short hold",
    ]
    given = page.locator("[data-tl-given]")
    assert given.locator("dt").all_inner_texts() == ["First?", "A comfortable hold"]
    assert given.locator("dd").all_inner_texts() == ["Belly", "6 s, 9 s, 7 s"]
    assert page.get_by_text("What you answered on 25 November 2026").is_visible()
    assert "says nothing about health" in page.locator("[data-tl-held]").inner_text()


def reach_the_hold(page: Page) -> Locator:
    go_on(page, "None of them")
    go_on(page, "Belly")
    page.get_by_label("In the last five minutes I have breathed normally").check()
    return page.locator("[data-tl-hold]")


def test_a_translated_button_still_ends_the_hold(page: Page) -> None:
    button = reach_the_hold(page)
    button.click()
    button.evaluate("button => { button.textContent = 'Erster Drang: Stopp'; }")
    page.clock.run_for(6000)
    assert button.inner_text() == "Erster Drang: Stopp"
    button.click()
    page.clock.run_for(1000)
    assert page.get_by_text("Tries: 6 s. Up to 2 more").is_visible()


def test_loading_the_page_again_is_no_way_round_the_rest(page: Page) -> None:
    button = reach_the_hold(page)
    button.click()
    page.clock.run_for(9000)
    button.click()
    page.reload()
    again = reach_the_hold(page)
    assert again.is_disabled()
    assert page.get_by_text("Tries: 9 s. Up to 2 more").is_visible()


@pytest.mark.parametrize("leave", ["back", "hidden"])
def test_a_hold_that_nobody_sees_is_none(page: Page, leave: str) -> None:
    button = reach_the_hold(page)
    button.click()
    page.clock.run_for(3000)
    if leave == "back":
        page.get_by_role("button", name="Back", exact=True).click()
        assert page.locator("[data-tl-on]").is_enabled()
        go_on(page, "Belly")
    else:
        page.evaluate(HIDE)
    page.clock.run_for(90_000)
    assert button.inner_text() == "Start the hold"
    assert page.locator("[data-tl-tries]").inner_text() == ""


def test_a_slip_of_the_finger_is_no_try(page: Page) -> None:
    button = reach_the_hold(page)
    button.dblclick()
    assert button.inner_text() == "Start the hold"
    assert page.locator("[data-tl-tries]").inner_text() == ""


def test_whoever_holds_does_not_leave_it_out(page: Page) -> None:
    button = reach_the_hold(page)
    page.get_by_label("I leave this out today").check()
    button.click()
    page.clock.run_for(9000)
    button.click()
    assert page.evaluate("document.activeElement.textContent").startswith("Tries: 9 s.")
    page.locator("[data-tl-on]").click()
    assert page.locator("[data-tl-start] a").all_inner_texts()[1] == "Short hold"


def test_a_hold_ends_by_itself_after_a_minute(page: Page) -> None:
    go_on(page, "None of them")
    go_on(page, "Belly")
    page.get_by_label("In the last five minutes I have breathed normally").check()
    page.locator("[data-tl-hold]").click()
    page.clock.run_for(90_000)
    assert page.get_by_text("Tries: 60 s.").is_visible()


def test_one_may_go_back_and_change_an_answer(page: Page) -> None:
    go_on(page, "None of them")
    go_on(page, "Chest")
    page.get_by_role("button", name="Back", exact=True).click()
    go_on(page, "Belly")
    go_on(page, "I leave this out today")
    assert page.locator("[data-tl-start] a").all_inner_texts()[1] == "Plain count"
