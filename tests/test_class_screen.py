"""A class on a tablet without network, from its first tap to rows on record."""

import csv
import shutil
from collections.abc import Iterator
from datetime import UTC, date, datetime
from pathlib import Path

import pytest
from playwright.sync_api import Browser, BrowserContext, Page

from builder.machine.browser import find_browser
from builder.publishing.class_screen.screen import write_class_screen
from builder.records.recording import record_export
from tests.browser_scripts.pages import (
    WITHOUT_SOUND,
    note_faults,
)
from tests.for_everybody.judges import ask_axe, find_cut_off, learn_names, look_at_focus
from tests.planning.starter import ROOT, TODAY, read_starter
from tests.publishing.class_screen.views import NAMES, make_view

pytestmark = pytest.mark.skipif(find_browser() is None, reason="no Chromium on this machine")
EVENING = datetime(2026, 11, 24, 17, tzinfo=UTC)
TABLET = {"width": 1024, "height": 768}
UPRIGHT = {"width": 768, "height": 1024}
PHONE = {"width": 320, "height": 640}
POCKET = {"width": 360, "height": 740}
WIDE = {"width": 1280, "height": 800}
LEAD_MS = 5_000
LEFT, RIGHT = "gap left to the floor, left", "gap left to the floor, right"
SHOWN = "[data-tl-block-tiles]:not([hidden])"


@pytest.fixture(scope="module")
def file(tmp_path_factory: pytest.TempPathFactory) -> Path:
    path = tmp_path_factory.mktemp("class") / "screen.html"
    path.write_text(write_class_screen(make_view()), encoding="utf-8")
    return path


@pytest.fixture
def context(browser: Browser) -> Iterator[BrowserContext]:
    opened = browser.new_context(viewport=TABLET, accept_downloads=True)
    opened.add_init_script(WITHOUT_SOUND)
    yield opened
    opened.close()


@pytest.fixture
def page(context: BrowserContext, file: Path) -> Iterator[Page]:
    """Give the page of the class from a disk; it must ask nobody for anything, nor complain."""
    opened = context.new_page()
    faults = note_faults(opened)
    asked: list[str] = []
    opened.on("request", lambda request: asked.append(request.url))
    opened.clock.install(time=EVENING)
    opened.goto(file.as_uri())
    yield opened
    others = [
        url for url in asked if url != file.as_uri() and not url.startswith(("data:", "blob:"))
    ]
    assert (faults, others) == ([], [])


def start(page: Page) -> None:
    page.clock.pause_at(EVENING.replace(minute=5))
    press(page, "Start the class")


def press(page: Page, name: str) -> None:
    page.get_by_role("button", name=name, exact=True).locator("visible=true").first.click()


def tile(page: Page, person: str) -> str:
    return f"{SHOWN} .tile:visible:has(h3:text-is('{NAMES[person]}'))"


def tap(page: Page, person: str, name: str) -> None:
    page.locator(tile(page, person)).get_by_role("button", name=name, exact=True).click()


def clock(page: Page) -> str:
    return page.locator("[data-tl-clock]").inner_text()


def step(page: Page) -> str:
    return page.locator("[data-tl-step]").inner_text()


def save(page: Page, folder: Path, name: str) -> Path:
    if page.locator("[data-tl-door]").is_hidden():
        press(page, "People and file")
    with page.expect_download() as download:
        press(page, "Save the file")
    assert download.value.suggested_filename == "2026-11-24-mixed.csv"
    path = folder / f"{name}.csv"
    download.value.save_as(path)
    return path


def read_rows(path: Path) -> list[dict[str, str]]:
    with path.open(encoding="utf-8", newline="") as opened:
        return list(csv.DictReader(opened))


def count_records(program: Path) -> list[int]:
    return [len(read_rows(program / f"{name}.csv")) for name in ("attendance", "results")]


def reload(page: Page) -> None:
    page.reload()
    page.wait_for_selector("html.is-ready")


def teach_class(page: Page) -> None:
    """Go through the class with a reload in the middle of each block, and note six outcomes."""
    start(page)
    teach_first_block(page)
    teach_second_block(page)
    teach_third_block(page)
    assert page.get_by_text("That was the last block of the plan. Save the file").is_visible()


def teach_first_block(page: Page) -> None:
    press(page, "Begin block 1")
    page.clock.run_for(LEAD_MS + 60_000)
    assert (step(page), clock(page)) == ("Breathe as it comes", "1:00")
    reload(page)
    assert (step(page), clock(page)) == ("Breathe as it comes", "1:00")
    tap(page, "C5", "Ready")
    tap(page, "C5", "belly")
    time_holds(page)
    page.clock.run_for(60_000)
    assert step(page) == "When all are ready"
    tap(page, "C6", "Again")


def teach_second_block(page: Page) -> None:
    press(page, "Begin block 2")
    page.clock.run_for(LEAD_MS + 61_000)
    assert step(page) == "Rest"  # between the sets, which all share
    page.clock.run_for(31_500)
    assert page.locator("[data-tl-detail]").inner_text() == "Set 2 of 2 · breath 1 of 6"
    reload(page)
    assert step(page) == "Breathe in"
    assert page.locator("[data-tl-detail]").inner_text() == "Set 2 of 2 · breath 1 of 6"
    page.clock.run_for(60_000)
    assert step(page) == "Rest"  # after the block
    assert "Next: block 3" in page.locator("[data-tl-ahead]:visible").inner_text()
    tap(page, "C5", "Ready")
    tap(page, "C6", "Easier")
    reload(page)
    assert step(page) == "Rest"
    page.clock.run_for(60_000)
    assert step(page) == "When all are ready"


def teach_third_block(page: Page) -> None:
    press(page, "Begin block 3")
    page.clock.run_for(LEAD_MS + 90_000)
    reload(page)
    assert clock(page) == "1:30"
    page.locator(tile(page, "C5")).get_by_label(LEFT).last.fill("12,5")
    page.locator(tile(page, "C5")).get_by_label(RIGHT).last.fill("9")
    page.locator(tile(page, "C6")).locator("[data-tl-number]").fill("7")
    tap(page, "C5", "Ready")
    tap(page, "C6", "Ready")
    page.clock.run_for(90_000)


def time_holds(page: Page) -> None:
    for seconds in (14, 16, 12):
        tap(page, "C6", "Start the hold")
        page.clock.run_for(seconds * 1000)
        page.locator(tile(page, "C6")).locator("[data-tl-watch]").click()
        page.clock.run_for(60_000)
    assert page.locator(tile(page, "C6")).locator("[data-tl-trials]").inner_text() == (
        "14 s, 16 s, 12 s"
    )


def test_a_whole_class_comes_on_record_as_it_was_tapped(page: Page, tmp_path: Path) -> None:
    program = shutil.copytree(ROOT / "demo_program", tmp_path / "program")
    before = count_records(program)
    teach_class(page)
    first = save(page, tmp_path, "first")
    rows = read_rows(first)
    assert [(row["person"], row["outcome"]) for row in rows if row["outcome"]] == [
        ("C5", "ready"),
        ("C6", "again"),
        ("C5", "ready"),
        ("C6", "easier"),
        ("C5", "ready"),
        ("C6", "ready"),
    ]
    assert [(row["measure"], row["side"], row["value"]) for row in rows if row["measure"]] == [
        ("first-mover", "", "belly"),
        ("breath-hold-seconds", "", "14"),
        ("breath-hold-seconds", "", "16"),
        ("breath-hold-seconds", "", "12"),
        ("reach-cm", "left", "12.5"),
        ("reach-cm", "right", "9"),
        ("steady-breaths", "", "7"),
    ]
    recording = record_export(first, program, read_starter(), TODAY)
    assert (recording.findings, recording.aside) == ((), 0)
    assert [after - was for was, after in zip(before, count_records(program), strict=True)] == [
        6,
        7,
    ]

    reload(page)
    again = record_export(save(page, tmp_path, "second"), program, read_starter(), TODAY)
    assert (len(again.added), again.already, again.findings) == (0, 13, ())


def test_breaths_and_rest_are_the_plans_until_they_are_changed(page: Page, tmp_path: Path) -> None:
    start(page)
    press(page, "The block after")
    tap(page, "C5", "Ready")
    tap(page, "C6", "Ready")
    within = page.locator(tile(page, "C6"))
    within.get_by_text("Breaths and rest").click()
    within.get_by_label("breaths done").fill("8")
    within.get_by_label("rest in seconds").fill("45")
    rows = read_rows(save(page, tmp_path, "rows"))
    assert [(row["breaths done"], row["rest seconds"]) for row in rows] == [
        ("12", "30"),
        ("8", "45"),
    ]


def test_what_is_no_number_is_told_and_not_kept(page: Page, tmp_path: Path) -> None:
    start(page)
    press(page, "Block 3")
    field = page.locator(tile(page, "C5")).get_by_label(LEFT).last
    field.fill("9999")
    field.blur()
    assert field.get_attribute("aria-invalid") == "true"
    assert "from -100 to 250" in page.locator("[data-tl-told]").inner_text()
    assert read_rows(save(page, tmp_path, "rows")) == []
    press(page, "Back to the class")
    field.fill("9,5")
    field.blur()
    assert page.locator("[data-tl-told]").inner_text() == ""
    page.locator(tile(page, "C5")).get_by_label(RIGHT).last.fill("95")
    page.locator(tile(page, "C5")).get_by_label(RIGHT).last.blur()
    assert "far apart" in page.locator("[data-tl-told]").inner_text()
    assert [row["value"] for row in read_rows(save(page, tmp_path, "mended"))] == ["9.5", "95"]


def test_who_stays_away_and_who_comes_as_well(page: Page, tmp_path: Path) -> None:
    away, joined = (page.locator(f"[data-tl-here={person}]") for person in ("C6", "C7"))
    away.click()
    page.get_by_text("Somebody came as well").click()
    joined.click()
    start(page)
    assert page.locator(tile(page, "C7")).get_by_text("Rest in this block.").is_visible()
    assert page.locator(tile(page, "C6")).get_by_role("button").count() == 0
    press(page, "Block 2")
    choice = page.locator(tile(page, "C7")).get_by_role("combobox")
    assert choice.locator("option").all_inner_texts()[1:] == [
        read_starter().by_id["even-count"].title
    ]
    choice.select_option("even-count")
    tap(page, "C7", "Again")
    reload(page)
    rows = read_rows(save(page, tmp_path, "rows"))
    assert [(row["person"], row["lesson"], row["outcome"]) for row in rows] == [
        ("C7", "even-count", "again")
    ]


def test_looking_elsewhere_leaves_a_block_running_and_ending_it_can_be_undone(page: Page) -> None:
    start(page)
    press(page, "Begin block 1")
    page.clock.run_for(LEAD_MS + 10_000)
    page.keyboard.press("ArrowRight")
    assert page.get_by_text("You look at block 2; block 1 is on.").is_visible()
    page.keyboard.press("ArrowLeft")
    press(page, "End the block")
    assert step(page) == "When all are ready"
    page.clock.run_for(30_000)
    press(page, "Go on with block 1")
    assert clock(page) == "1:50"


def test_the_space_bar_pauses_and_time_stands_still(page: Page) -> None:
    start(page)
    press(page, "Begin block 1")
    page.clock.run_for(LEAD_MS + 10_000)
    tap(page, "C5", "Ready")
    page.keyboard.press("Space")
    page.clock.run_for(30_000)
    reload(page)
    assert (step(page), clock(page)) == ("Paused", "1:50")
    page.keyboard.press("Space")
    page.clock.run_for(10_000)
    assert clock(page) == "1:40"
    assert page.locator(f"{tile(page, 'C5')} [aria-pressed=true]").inner_text() == "Ready"


def test_a_tablet_that_slept_knows_what_has_passed(page: Page) -> None:
    start(page)
    press(page, "Block 2")
    press(page, "Begin block 2")
    page.clock.run_for(LEAD_MS)
    page.clock.fast_forward(150_000 + 20_000)
    assert (step(page), clock(page)) == ("Rest", "0:40")


def test_erasing_asks_first_and_leaves_nothing(page: Page, tmp_path: Path) -> None:
    start(page)
    tap(page, "C5", "Ready")
    press(page, "People and file")
    press(page, "Erase this class from the device")
    press(page, "Keep it")
    assert len(read_rows(save(page, tmp_path, "kept"))) == 1
    press(page, "Erase this class from the device")
    press(page, "Erase it")
    assert page.evaluate("localStorage.length") == 0
    reload(page)
    assert page.evaluate("localStorage.length") == 0
    assert read_rows(save(page, tmp_path, "erased")) == []


def test_block_changes_are_read_out(page: Page) -> None:
    heard = page.locator("[data-tl-heard]")
    assert heard.get_attribute("aria-live") == "polite"
    start(page)
    press(page, "Block 2")
    press(page, "Begin block 2")
    assert heard.text_content() == "block 2, lying down, 4-1-4-1"
    page.clock.run_for(LEAD_MS + 150_100)
    assert heard.text_content() == "Rest 60 s. Next: block 3, lying down, 4-1-4-1"


@pytest.mark.parametrize(
    ("size", "look"),
    [
        (TABLET, {"color_scheme": "light"}),
        (UPRIGHT, {"color_scheme": "dark"}),
        (PHONE, {"color_scheme": "dark"}),
        (POCKET, {"color_scheme": "light"}),
        (POCKET, {"forced_colors": "active"}),
        (WIDE, {"forced_colors": "active"}),
    ],
    ids=["across", "upright dark", "phone dark", "pocket", "pocket forced", "wide forced"],
)
def test_nothing_shuts_anybody_out(
    browser: Browser, file: Path, size: dict[str, int], look: dict[str, str]
) -> None:
    """Before the class, in a block, in a rest, with everything open: axe-core and the eye."""
    context = browser.new_context(
        viewport=size,
        reduced_motion="reduce",
        **look,  # type: ignore[arg-type]
    )
    page = context.new_page()
    page.clock.install(time=EVENING)
    page.goto(file.as_uri())
    faults = judge(page, **look)
    page.locator("[data-tl-here=C6]").click()
    page.locator("summary", has_text="Somebody came").click()
    page.locator("[data-tl-here=C7]").click()
    page.locator("[data-tl-erase]").click()
    faults += judge(page, **look)
    page.locator("[data-tl-start]").click()
    for index in range(3):
        page.locator(f"[data-tl-show='{index}']").click()
        page.wait_for_timeout(500)  # a click sooner and at the same spot is an echo
        page.locator("[data-tl-go]").click()
        page.clock.run_for(LEAD_MS + 1000)
        page.locator(f"{SHOWN} [data-tl-outcome=ready]:visible").first.click()
        page.evaluate(
            "document.querySelectorAll('details').forEach((each) => { each.open = true; })"
        )
        faults += judge(page, **look)
        page.locator("[data-tl-end]").click()
        page.clock.run_for(200)
        faults += judge(page, **look)
    context.close()
    assert faults == []


def judge(page: Page, *, forced_colors: str = "", **_: str) -> list[str]:
    """Return what is at fault; axe-core takes our colours for those that the device forces."""
    by_axe = [] if forced_colors else ask_axe(page)
    return [*by_axe, *find_cut_off(page), *find_small_targets(page)]


def find_small_targets(page: Page) -> list[str]:
    """Return what is smaller than 44 pixels: WCAG 2.2, 2.5.5, level AAA."""
    found: list[str] = page.evaluate(
        """() => [...document.querySelectorAll("button, select, summary, input")]
      .filter((each) => each.checkVisibility())
      .map((each) => [each, each.getBoundingClientRect()])
      .filter(([, box]) => box.width < 44 || box.height < 44)
      .map(([each, box]) => `small: ${each.outerHTML.slice(0, 90)} ${box.width} ${box.height}`)"""
    )
    return found


def test_the_keyboard_reaches_all_of_it_in_the_order_of_the_page(page: Page) -> None:
    start(page)
    learn_names(page)
    names = []
    for _ in range(14):
        page.keyboard.press("Tab")
        focus = look_at_focus(page)
        assert focus is not None
        assert focus.name
        assert focus.is_marked
        assert focus.is_seen
        names.append(focus.name)
    assert names[:3] == ["Tones", "The block before", "Block 1"]
    assert names[-3:] == ["Ready", "Again", "Easier"] or "Ready" in names


def test_the_day_of_the_rows_is_that_of_the_class(page: Page, tmp_path: Path) -> None:
    note = page.get_by_text("Today is not the day of this class.")
    assert note.is_hidden()
    page.clock.set_fixed_time(EVENING.replace(day=25))
    reload(page)
    assert note.is_visible()
    press(page, "Start the class")
    tap(page, "C5", "Ready")
    (row,) = read_rows(save(page, tmp_path, "rows"))
    assert row["date"] == date(2026, 11, 24).isoformat()


def test_without_scripts_the_whole_plan_can_be_read(browser: Browser, file: Path) -> None:
    context = browser.new_context(java_script_enabled=False)
    page = context.new_page()
    page.goto(file.as_uri())
    assert page.get_by_role("heading", level=2).all_inner_texts()[-3:] == [
        "Block 1: lying down, own pace, 2 min",
        "Block 2: lying down, 4-1-4-1, 3 min",
        "Block 3: lying down, 4-1-4-1, 3 min",
    ]
    context.close()


def test_another_block_is_shown_from_its_top(page: Page) -> None:
    page.set_viewport_size(PHONE)
    start(page)
    page.evaluate("scrollTo(0, 3000)")
    page.keyboard.press("ArrowRight")
    heading = page.get_by_role("heading", name="Block 2")
    box = heading.bounding_box()
    assert box is not None
    assert 0 <= box["y"] < PHONE["height"]
