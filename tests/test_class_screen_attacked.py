"""A class screen through what befalls a tablet: nothing is lost, mixed or pretended."""

from collections.abc import Iterator
from dataclasses import replace
from datetime import timedelta
from pathlib import Path

import pytest
from playwright.sync_api import Browser, BrowserContext, Page

from builder.machine.browser import find_browser
from builder.publishing.class_screen.screen import write_class_screen
from tests.browser_scripts.pages import WITHOUT_SOUND, note_faults, wait_until
from tests.publishing.class_screen.views import NAMES, make_block, make_turn, make_view
from tests.test_class_screen import (
    EVENING,
    LEAD_MS,
    SHOWN,
    clock,
    press,
    read_rows,
    reload,
    save,
    start,
    step,
    tap,
    tile,
)

pytestmark = pytest.mark.skipif(find_browser() is None, reason="no Chromium on this machine")
DARK = "navigator.wakeLock.request = () => Promise.reject(new Error('refused'))"
FILL = """() => { for (let size = 1 << 20; size >= 1; size = Math.floor(size / 8)) {
  try { for (let part = 0; part < 9; part += 1) {
    localStorage.setItem(`other ${size} ${part}`, "x".repeat(size)); } } catch { } } }"""
FREE = """() => Object.keys(localStorage).filter((name) => name.startsWith("other"))
  .forEach((name) => localStorage.removeItem(name))"""
PHONE = {"width": 360, "height": 740}


@pytest.fixture
def context(browser: Browser) -> Iterator[BrowserContext]:
    opened = browser.new_context(viewport=PHONE, accept_downloads=True)
    opened.add_init_script(WITHOUT_SOUND)
    opened.add_init_script(DARK)
    yield opened
    opened.close()


@pytest.fixture
def file(tmp_path: Path) -> Path:
    path = tmp_path / "screen.html"
    view = make_view(spare=(SPARE,))
    (joins,) = view.others
    joins = replace(joins, turns=(*joins.turns, ()), not_these=(*joins.not_these, ()))
    path.write_text(write_class_screen(replace(view, others=(joins,))), encoding="utf-8")
    return path


SPARE = make_block(4, 2, 0, make_turn("C5", "belly-breath"), make_turn("C6", "belly-breath"))


@pytest.fixture
def page(context: BrowserContext, file: Path) -> Iterator[Page]:
    opened = context.new_page()
    faults = note_faults(opened)
    opened.clock.install(time=EVENING)
    opened.goto(file.as_uri())
    opened.wait_for_selector("html.is-ready")
    yield opened
    assert faults == []


def told(page: Page) -> str:
    return page.locator("[data-tl-told]").inner_text()


def list_outcomes(page: Page, folder: Path) -> list[tuple[str, str, str]]:
    rows = read_rows(save(page, folder, "rows"))
    return [(row["person"], row["lesson"], row["outcome"]) for row in rows]


def test_who_joins_is_kept_from_what_is_not_theirs_before_any_lesson_shows(page: Page) -> None:
    page.get_by_text("Somebody came as well").click()
    assert page.get_by_text("sore knee: no kneeling").first.is_hidden()
    page.locator("[data-tl-here=C7]").click()
    assert page.get_by_text("sore knee: no kneeling").first.is_visible()
    start(page)
    ahead = page.locator("[data-tl-ahead]:visible").inner_text()
    assert f"{NAMES['C7']}: ✕ not Comfortable hold" in ahead
    press(page, "Block 3")
    theirs = page.locator(tile(page, "C7"))
    assert [line for line in theirs.inner_text().splitlines() if line][1:3] == [
        "✕ Not this one",
        "Belly breath: the notice leaves it out",
    ]
    assert theirs.get_by_text("Rest in this block.").is_visible()
    assert theirs.locator("[data-tl-turn]").count() == 0
    press(page, "Extra block 1")
    assert page.locator("[data-tl-where]").inner_text() == "Block 1 of 3"
    press(page, "Begin extra block 1")
    assert page.locator("[data-tl-where]").inner_text() == "Extra block 1 of 1"
    stops = page.locator(".stop:visible").all_inner_texts()
    assert stops[0] == "Stop if You feel pain, get dizzy, tingle or run short of air"
    assert len(stops) == 3  # everybody's, and each person's own
    assert page.locator("[data-tl-dark]:visible").count() == 1
    assert page.get_by_text("This device gives no tones").is_visible()


def test_leaving_loses_nothing_and_a_second_window_neither(
    context: BrowserContext, page: Page, file: Path, tmp_path: Path
) -> None:
    start(page)
    tap(page, "C6", "Ready")
    other = context.new_page()
    other.clock.install(time=EVENING)
    other.goto(file.as_uri())
    other.wait_for_selector("html.is-ready")
    tap(other, "C5", "Again")
    page.bring_to_front()
    tap(page, "C6", "Easier")
    press(page, "People and file")
    page.locator("[data-tl-here=C6]").click()
    assert page.locator("[data-tl-noted=C6]").inner_text() == "1 row noted"
    assert list_outcomes(page, tmp_path) == [
        ("C5", "hands-check-lying", "again"),
        ("C6", "comfortable-hold", "easier"),
    ]
    press(page, "Back to the class")
    left = page.locator(tile(page, "C6"))
    assert left.get_by_text("Not here any more").is_visible()
    tap(page, "C6", "Easier")
    assert left.get_by_role("button").count() == 0
    assert list_outcomes(page, tmp_path) == [("C5", "hands-check-lying", "again")]
    press(page, "Erase this class from the device")
    press(page, "Erase it")
    other.wait_for_selector("[data-tl-door]:not([hidden])")
    assert other.get_by_text("0 rows so far").is_visible()


def test_what_a_killed_browser_lost_comes_back_and_a_full_one_says_so(
    page: Page, tmp_path: Path
) -> None:
    start(page)
    tap(page, "C5", "Ready")
    wait_for_backup(page, "ready")
    page.evaluate("localStorage.clear()")  # what a browser loses that is killed at once
    reload(page)
    assert page.locator(f"{tile(page, 'C5')} [aria-pressed=true]").inner_text() == "Ready"
    page.evaluate(FILL)
    page.evaluate("scrollTo(0, 9999)")
    tap(page, "C6", "Again")
    note = page.get_by_text("This device keeps nothing")
    assert note.is_visible()
    box = note.bounding_box()
    assert box is not None
    assert box["y"] + box["height"] <= PHONE["height"]
    assert [row[2] for row in list_outcomes(page, tmp_path)] == ["ready", "again"]
    page.evaluate(FREE)
    press(page, "Back to the class")
    tap(page, "C6", "Again")
    assert note.is_hidden()


def wait_for_backup(page: Page, word: str) -> None:
    """Wait until a word is in the second copy, which is written behind the page's back."""
    wait_until(
        page,
        """new Promise((done) => {
          indexedDB.open("tempoleaf.class.1").onsuccess = (event) => {
            event.target.result.transaction("kept").objectStore("kept").getAll().onsuccess =
              (found) => done(found.target.result.join().includes("WORD"));
          };
        })""".replace("WORD", word),
    )


def test_a_page_made_anew_mixes_neither_clock_nor_taps(
    page: Page, file: Path, tmp_path: Path
) -> None:
    start(page)
    press(page, "Block 2")
    press(page, "Begin block 2")
    page.clock.run_for(LEAD_MS + 20_000)
    tap(page, "C5", "Ready")
    view = make_view()
    moved = (view.blocks[0], replace(view.blocks[2], number=2), replace(view.blocks[1], number=3))
    file.write_text(write_class_screen(replace(view, blocks=moved)), encoding="utf-8")
    reload(page)
    assert "made anew from another plan" in told(page)
    assert page.get_by_text("1 row was noted on an earlier page").is_visible()
    assert list_outcomes(page, tmp_path) == [("C5", "even-count", "ready")]
    press(page, "Leave them out of the file")
    assert list_outcomes(page, tmp_path) == []
    press(page, "Leave them out of the file")
    press(page, "Back to the class")
    assert page.locator("[data-tl-where]").inner_text() == "Block 1 of 3"
    assert step(page) == "When all are ready"
    press(page, "Block 2")
    assert page.locator(f"{SHOWN} [data-tl-outcome][aria-pressed=true]").count() == 0


def test_sleep_and_a_clock_that_is_set_are_told(page: Page, tmp_path: Path) -> None:
    start(page)
    press(page, "Begin block 1")
    page.clock.run_for(LEAD_MS + 10_000)
    tap(page, "C6", "Start the hold")
    page.clock.run_for(5_000)
    reload(page)
    assert "First urge: stop, 5 s" in page.locator(tile(page, "C6")).inner_text()
    page.clock.fast_forward(70_000)
    page.clock.run_for(200)
    assert told(page).startswith("1:10 passed unseen")
    assert "A hold ran on" in told(page)
    assert clock(page) == "0:35"
    tap(page, "C5", "Ready")
    assert told(page) == ""
    page.clock.set_system_time(EVENING - timedelta(hours=1))
    page.clock.run_for(200)
    assert "was set back" in told(page)
    assert clock(page) == "0:35"
    page.clock.run_for(5_000)
    assert clock(page) == "0:30"
    page.clock.set_system_time(EVENING - timedelta(hours=9))
    reload(page)
    assert "was set back" in told(page)
    assert step(page) == "Paused"
    assert [row[0] for row in list_outcomes(page, tmp_path)] == ["C5"]
