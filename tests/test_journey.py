"""From the home page to another device, as one person goes, with the clock sped up."""

from collections.abc import Iterator
from io import BytesIO
from pathlib import Path

import numpy as np
import pytest
import zxingcpp
from PIL import Image
from playwright.sync_api import Browser, Page

from builder.machine.browser import find_browser
from tests.browser_scripts.pages import (
    MORNING,
    NAME,
    WITHOUT_SOUND,
    note_faults,
    serve_course,
    stop_clock,
)
from tests.conftest import copy_small_course

pytestmark = pytest.mark.skipif(find_browser() is None, reason="no Chromium on this machine")
TABLE = """\
ask_first: [You feel ill today]
questions:
  - {id: moves, text: What moves?, answers: {belly: Belly, chest: Chest}}
start:
  - strand: breath
    ways: [{lesson: hand-on-belly, why: It is the first.}]
  - strand: count
    ways:
      - {when: {moves: [belly]}, lesson: plain-count, why: Your belly moves.}
      - {why: The belly comes first.}
"""
LESSON = "lessons/count/plain-count/"
PHONE = {"width": 360, "height": 640}
BREATH_MS, REST_MS, LEAD_MS = 10_000, 10_000, 5_000


@pytest.fixture(scope="module")
def address(shelf: Path, tmp_path_factory: pytest.TempPathFactory) -> Iterator[str]:
    """Serve a small course whose plain count has two sets of two breaths on each side."""
    project = copy_small_course(tmp_path_factory.mktemp("journey") / "project")
    content = project / "content"
    lesson = content / f"{LESSON.rstrip('/')}.md"
    text = lesson.read_text(encoding="utf-8")
    dose = "dose: {sets: 2, breaths: 2, rest: 10, sides: each}"
    lesson.write_text(text.replace("dose: {sets: 2, breaths: 6, rest: 30}", dose), "utf-8")
    home = content / "index.md"
    home.write_text(f"{home.read_text('utf-8')}\n[Begin](start-here.md)\n", encoding="utf-8")
    (content / "placement.yml").write_text(TABLE, encoding="utf-8")
    with serve_course(shelf, project, strict=False) as site:
        yield site


@pytest.fixture
def page(browser: Browser) -> Iterator[Page]:
    """Give a page on a new phone, whose scripts must not fail."""
    context = browser.new_context(viewport=PHONE, accept_downloads=True)
    context.add_init_script(WITHOUT_SOUND)
    opened = context.new_page()
    faults = note_faults(opened)
    yield opened
    context.close()
    assert faults == []


def answer(page: Page, words: str) -> None:
    page.get_by_label(words, exact=True).check()
    page.locator("[data-tl-on]").click()


def told(page: Page) -> str:
    now = page.locator(".tl-pacer__now").inner_text().split("\n")[0]
    return f"{now} · {page.locator('.tl-pacer__where').inner_text()}"


def start_practice(page: Page, url: str) -> None:
    page.clock.install(time=MORNING)
    page.goto(url)
    page.get_by_role("button", name="Practise now").click()
    stop_clock(page)
    page.get_by_role("button", name="Begin").click()
    page.clock.run_for(LEAD_MS + 100)


def practise_both_sides(page: Page) -> None:
    """Follow the pacer through two sets of two breaths on each side, with their rests."""
    sides = ("first side", "first side", "second side", "second side")
    for at, side in enumerate(sides, 1):
        assert told(page) == f"Breathe in · Set {at} of 4 · breath 1 of 2 · {side}"
        page.clock.run_for(BREATH_MS)
        assert told(page) == f"Breathe in · Set {at} of 4 · breath 2 of 2 · {side}"
        page.clock.run_for(BREATH_MS)
        if at < len(sides):
            assert told(page).startswith("Change sides" if at == 2 else "Rest")
            page.clock.run_for(REST_MS)


def marks(page: Page, address: str) -> list[str]:
    page.goto(f"{address}map/")
    return sorted(page.locator(".tl-mark").all_inner_texts())


def save_practice(page: Page, address: str, file: Path) -> None:
    page.goto(f"{address}my-practice/")
    with page.expect_download() as download:
        page.get_by_role("button", name="Save to a file").click()
    download.value.save_as(file)


def test_from_home_to_a_clean_device(
    browser: Browser, page: Page, address: str, tmp_path: Path
) -> None:
    page.clock.install(time=MORNING)
    page.goto(address)
    page.get_by_role("link", name="Begin", exact=True).click()
    answer(page, "None of them")
    answer(page, "Belly")
    page.get_by_role("link", name="Plain count").click()
    page.get_by_role("button", name="Practise now").click()
    stop_clock(page)
    page.get_by_role("button", name="Begin").click()
    page.clock.run_for(LEAD_MS + 100)
    practise_both_sides(page)
    page.get_by_role("button", name="Ready: it went as the lesson says").click()
    page.get_by_role("button", name="Leave").click()
    for box in page.locator("[data-tl-tick]").all():
        box.check()
    mine = marks(page, address)
    assert mine == ["→ may come next", "→ may come next", "✓ ready"]
    save_practice(page, address, tmp_path / "mine.json")

    clean = browser.new_context(viewport=PHONE)
    other = clean.new_page()
    faults = note_faults(other)
    other.clock.install(time=MORNING)
    assert marks(other, address) == []
    other.goto(f"{address}my-practice/")
    other.get_by_label("Add what is in a file").set_input_files(tmp_path / "mine.json")
    other.get_by_text("Added: 1 practice").wait_for()
    assert other.locator("[data-tl-log] a").text_content() == "Plain count"
    assert marks(other, address) == mine
    other.goto(address + LESSON)
    assert all(box.is_checked() for box in other.locator("[data-tl-tick]").all())
    clean.close()
    assert faults == []


def test_another_phone_takes_all_of_it_from_codes_that_a_reader_reads(
    browser: Browser, page: Page, address: str
) -> None:
    at_studio = address.replace("127.0.0.1", NAME)
    page.goto(at_studio + LESSON)
    page.get_by_label("Your own notes on this lesson").fill("Left side is shy. " * 12)
    page.get_by_label("Your own notes on this lesson").blur()
    page.evaluate(
        """() => {
          for (let day = 1; day < 29; day += 1)
            for (const lesson of ["plain-count", "wide-ribs", "long-out"])
              tempoleaf.practice.record(
                lesson, ["ready", "again", "easier"][day % 3], new Date(2026, 8, day));
        }"""
    )
    page.goto(f"{at_studio}my-practice/")
    page.get_by_role("button", name="Show the code").click()
    addresses = []
    while True:
        addresses.append(read_code(page))
        if not page.get_by_role("button", name="Next code").is_visible():
            break
        page.get_by_role("button", name="Next code").click()
    assert len(addresses) == 2
    mine = page.evaluate("tempoleaf.practice.read()")

    clean = browser.new_context(viewport=PHONE)
    other = clean.new_page()
    faults = note_faults(other)
    for scanned in (*addresses, addresses[0]):
        other.goto("about:blank")
        other.goto(scanned)
        other.get_by_role("button", name="Add it to this device").click()
        assert "take" not in other.url
    assert other.locator("[data-tl-told]").inner_text().startswith("Added: 0 practices")
    theirs = other.evaluate("tempoleaf.practice.read()")
    in_order = [sorted(each["log"], key=str) for each in (mine, theirs)]
    assert in_order[0] == in_order[1]
    assert theirs["notes"] == mine["notes"]
    other.goto(addresses[0])
    other.get_by_role("button", name="Leave it out").click()
    assert other.get_by_text("Left out. Nothing was changed.").is_visible()
    clean.close()
    assert faults == []


def test_codes_come_down_when_what_they_say_has_changed(page: Page, address: str) -> None:
    at_studio = address.replace("127.0.0.1", NAME)
    page.goto(at_studio + LESSON)
    page.get_by_label("Your own notes on this lesson").fill("Left side is shy.")
    page.locator("[data-tl-tick]").first.check()
    page.goto(f"{at_studio}my-practice/")
    page.get_by_role("button", name="Show the code").click()
    assert "Left+side" in read_code(page)
    page.get_by_label("With my notes").uncheck()
    assert "Left" not in read_code(page)
    page.get_by_role("button", name="Erase everything").click()
    page.get_by_role("button", name="Yes, erase it now").click()
    assert not page.locator(".tl-code__picture").is_visible()


def test_codes_read_in_one_tab_are_offered_together(page: Page, address: str) -> None:
    row = "take={}.2&log.{}=fv7iA"
    page.goto(f"{address}my-practice/#{row.format(1, 'plain-count')}")
    page.evaluate("hash => { window.location.hash = hash; }", row.format(2, "wide-ribs"))
    page.get_by_text("What you scanned holds 2 practices.").wait_for()
    page.reload()
    page.get_by_text("What you scanned holds 1 practice.").wait_for()
    page.get_by_role("button", name="Add it to this device").click()
    assert page.get_by_text("This was code 2 of 2").is_visible()
    page.reload()
    assert not page.get_by_text("What you scanned").is_visible()


def test_a_note_is_kept_before_its_field_is_left(page: Page, address: str) -> None:
    page.goto(address + LESSON)
    page.get_by_label("Your own notes on this lesson").press_sequentially("Shy")
    page.reload()
    assert page.get_by_label("Your own notes on this lesson").input_value() == "Shy"


def test_two_open_pages_keep_each_others_ticks_and_notes(page: Page, address: str) -> None:
    second = page.context.new_page()
    for each in (page, second):
        each.goto(address + LESSON)
    second.evaluate("tempoleaf.practice.change((data) => { data.ticks['plain-count'] = ['7']; })")
    page.get_by_label("Your own notes on this lesson").focus()
    second.get_by_label("Your own notes on this lesson").fill("Theirs")
    page.get_by_label("Your own notes on this lesson").press("Control+End")
    page.get_by_label("Your own notes on this lesson").press_sequentially(" and mine")
    page.locator("[data-tl-tick]").first.check()
    kept = page.evaluate("tempoleaf.practice.read()")
    assert kept["ticks"] == {"plain-count": ["0", "7"]}
    assert kept["notes"] == {"plain-count": "Theirs and mine"}


def test_what_was_erased_stays_erased_on_the_way_back(page: Page, address: str) -> None:
    page.goto(address + LESSON)
    page.locator("[data-tl-tick]").first.check()
    page.goto(f"{address}my-practice/")
    page.get_by_role("button", name="Erase everything").click()
    page.get_by_role("button", name="Yes, erase it now").click()
    page.go_back()
    page.get_by_role("button", name="Practise now").wait_for()
    assert not page.locator("[data-tl-tick]").first.is_checked()


def test_a_strands_list_asks_for_what_stands_in_other_strands_too(page: Page, address: str) -> None:
    page.goto(f"{address}lessons/count/")
    assert page.locator(".tl-mark").count() == 0
    ready = "{ lesson: 'hand-on-belly', on: '2026-01-01', outcome: 'ready' }"
    page.evaluate(f"tempoleaf.practice.add({{ log: [{ready}, {ready}] }})")
    page.reload()
    assert page.locator(".tl-mark").count() == 0
    page.evaluate(
        f"tempoleaf.practice.change((data) => {{ for (let i = 0; i < 2; i += 1)"
        f" data.log.push({{ ...{ready}, lesson: 'wide-ribs' }}); }})"
    )
    page.reload()
    assert page.locator(".tl-mark").all_inner_texts() == ["→ may come next"]


def read_code(page: Page) -> str:
    """Read the code on the screen with a reader made by others."""
    picture = page.locator(".tl-code__picture").screenshot()
    (found,) = zxingcpp.read_barcodes(np.asarray(Image.open(BytesIO(picture)).convert("L")))
    return found.text


def test_codes_are_not_offered_where_no_other_phone_can_come(page: Page, address: str) -> None:
    page.goto(f"{address}my-practice/")
    assert page.get_by_text("This works once the course is on the web").is_visible()
    assert not page.get_by_role("button", name="Show the code").is_visible()


def test_a_reload_in_a_set_comes_back_to_the_lesson_with_nothing_noted(
    page: Page, address: str
) -> None:
    start_practice(page, address + LESSON)
    page.reload()
    assert page.get_by_role("button", name="Practise now").is_visible()
    assert not page.locator(".tl-pacer").is_visible()
    assert page.evaluate("tempoleaf.practice.read().log") == []
    page.get_by_role("button", name="Practise now").click()
    assert page.get_by_role("button", name="Begin").is_visible()


def test_the_way_back_in_a_rest_keeps_the_lesson_and_silences_the_pacer(
    page: Page, address: str
) -> None:
    start_practice(page, address + LESSON)
    page.clock.run_for(2 * BREATH_MS)
    assert told(page).startswith("Rest")
    page.go_back()
    assert page.url == address + LESSON
    assert not page.locator(".tl-pacer").is_visible()
    said = page.locator(".tl-pacer__said").text_content()
    page.clock.run_for(60_000)
    assert page.locator(".tl-pacer__said").text_content() == said
