"""The pacer in a browser, from opening to "how was it", with the clock sped up."""

import json
from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page

from builder.machine.browser import find_browser
from tests.browser_scripts.pages import MORNING, note_faults, serve_course, stop_clock, wait_until
from tests.conftest import copy_small_course

COUNT = "lessons/count/plain-count/"
OWN_PACE = "lessons/breath/wide-ribs/"
LEAD_MS = 5000
BREATH_MS = 10_000
pytestmark = pytest.mark.skipif(find_browser() is None, reason="no Chromium on this machine")
LOG_TONES = """
window.tones = [];
const start = OscillatorNode.prototype.start;
OscillatorNode.prototype.start = function (at) {
  window.tones.push(at);
  return start.call(this, at);
};
"""

RENDER = """async () => {
  const drill = JSON.parse(document.querySelector(".tl-pacer").dataset.tlDrill);
  const plan = tempoleaf.makePlan(drill);
  const events = tempoleaf.schedule(plan, 0, plan.endMs + 1).filter((e) => tempoleaf.toneOf(e));
  const rate = 8000;
  const context = new OfflineAudioContext(1, rate * (plan.endMs / 1000 + 4), rate);
  const tones = tempoleaf.makeTones(context);
  events.forEach((event) => tones.play(tempoleaf.toneOf(event), event.at / 1000));
  const sound = (await context.startRendering()).getChannelData(0);
  const begins = [];
  let quiet = rate;
  sound.forEach((sample, at) => {
    if (sample !== 0 && quiet > rate / 5) {
      begins.push((1000 * at) / rate);
    }
    quiet = sample === 0 ? quiet + 1 : 0;
  });
  const loudest = sound.reduce((most, sample) => Math.max(most, sample));
  return [begins, events.map((event) => event.at), loudest];
}"""


@pytest.fixture(scope="module")
def address(shelf: Path, tmp_path_factory: pytest.TempPathFactory) -> Iterator[str]:
    """Serve a small course whose plain count is done on each side, two breaths and a rest."""
    project = copy_small_course(tmp_path_factory.mktemp("pacer") / "project")
    lesson = project / "content" / f"{COUNT.rstrip('/')}.md"
    text = lesson.read_text(encoding="utf-8")
    dose = "dose: {sets: 1, breaths: 2, rest: 10, sides: each}"
    lesson.write_text(text.replace("dose: {sets: 2, breaths: 6, rest: 30}", dose), "utf-8")
    with serve_course(shelf, project, strict=False) as site:
        yield site


@pytest.fixture
def page(browser: Browser) -> Iterator[Page]:
    context = browser.new_context(viewport={"width": 360, "height": 640})
    page = context.new_page()
    faults = note_faults(page)
    yield page
    context.close()
    assert faults == []


def open_pacer(page: Page, url: str, *, is_timed: bool = True) -> None:
    """Open the pacer of a lesson; the clock is the test's, and so there are no tones."""
    if is_timed:
        page.clock.install(time=MORNING)
    page.goto(url)
    page.get_by_role("button", name="Practise now").click()
    if is_timed:
        stop_clock(page)
        page.get_by_role("button", name="Begin").wait_for()
        page.evaluate("window.AudioContext = window.webkitAudioContext = undefined")


def word(page: Page) -> str:
    return page.locator(".tl-pacer__now").inner_text().replace("\n", " ").strip()


def where(page: Page) -> str:
    return page.locator(".tl-pacer__where").inner_text()


def kept(page: Page) -> dict:
    return json.loads(page.evaluate("localStorage.getItem(tempoleaf.practice.key)") or "{}")


def test_a_drill_runs_over_both_sides_to_how_was_it(page: Page, address: str) -> None:
    open_pacer(page, address + COUNT)
    assert page.locator(".tl-pacer__before").get_by_text("Stop if").is_visible()
    page.get_by_role("button", name="Begin").click()
    page.clock.run_for(100)
    assert word(page) == "Get into position 5"
    page.clock.run_for(LEAD_MS)
    assert (word(page), where(page)) == ("Breathe in 1", "Set 1 of 2 · breath 1 of 2 · first side")
    page.clock.run_for(4000)
    assert word(page) == "Pause 1"
    page.clock.run_for(1000)
    assert word(page) == "Breathe out 1"
    assert page.locator(".tl-pacer__cue").inner_text() == "Out for four"
    page.clock.run_for(BREATH_MS)
    assert where(page) == "Set 1 of 2 · breath 2 of 2 · first side"
    page.clock.run_for(5000)
    assert (word(page), where(page)) == ("Change sides 10", "Set 2 of 2 · second side")
    page.clock.run_for(10_000)
    assert where(page) == "Set 2 of 2 · breath 1 of 2 · second side"
    page.clock.run_for(2 * BREATH_MS)
    page.get_by_role("button", name="Ready: it went as the lesson says").click()
    assert page.get_by_text("Noted on this device.").is_visible()
    assert [row["outcome"] for row in kept(page)["log"]] == ["ready"]
    assert page.locator(".tl-pacer [data-tl-after=ready] a").count() == 2


def test_a_pause_by_keyboard_goes_on_at_the_start_of_the_breath(page: Page, address: str) -> None:
    open_pacer(page, address + COUNT)
    assert page.evaluate("document.activeElement.textContent") == "Stop if"
    page.keyboard.press("Tab")
    page.keyboard.press("Enter")
    page.clock.run_for(100 + LEAD_MS + BREATH_MS + 2000)
    page.keyboard.press("Space")
    page.clock.run_for(60_000)
    assert word(page) == "Paused"
    page.keyboard.press("Space")
    page.clock.run_for(100)
    assert (word(page), where(page)) == ("Breathe in 1", "Set 1 of 2 · breath 2 of 2 · first side")


def test_a_hidden_page_without_sound_pauses_and_says_so(page: Page, address: str) -> None:
    open_pacer(page, address + COUNT)
    page.get_by_role("button", name="Begin").click()
    page.clock.run_for(8000)
    page.evaluate(
        "Object.defineProperty(document, 'hidden', {value: true, configurable: true});"
        "document.dispatchEvent(new Event('visibilitychange'))"
    )
    page.clock.run_for(30_000)
    assert page.get_by_role("alert").inner_text().startswith("Paused while the page was out")
    assert page.get_by_role("button", name="Go on").is_visible()


def test_the_way_back_closes_the_pacer_and_stays_on_the_page(page: Page, address: str) -> None:
    open_pacer(page, address + COUNT)
    page.go_back()
    assert page.url == address + COUNT
    assert not page.locator(".tl-pacer").evaluate("dialog => dialog.open")
    page.get_by_role("button", name="Practise now").click()
    page.keyboard.press("Escape")
    wait_until(page, "!document.querySelector('.tl-pacer').open")
    assert page.url == address + COUNT


def test_faster_is_offered_within_the_band_and_slower_is_not(page: Page, address: str) -> None:
    open_pacer(page, address + COUNT)
    page.get_by_role("button", name="Begin").click()
    page.clock.run_for(1100 + LEAD_MS)
    assert page.get_by_role("button", name="Slower").is_disabled()
    page.get_by_role("button", name="Faster").click()
    assert page.get_by_text("Count 4-1-4-1, then 3-1-3-1").is_visible()
    page.clock.run_for(BREATH_MS + 2000)
    assert page.get_by_text("Count 3-1-3-1", exact=True).is_visible()
    assert word(page) == "Pause 1"
    page.get_by_role("button", name="Faster").click()
    assert page.get_by_role("button", name="Faster").is_disabled()


def test_at_ones_own_pace_the_person_ends_the_set(page: Page, address: str) -> None:
    open_pacer(page, address + OWN_PACE)
    page.get_by_role("button", name="Begin").click()
    page.clock.run_for(200_000)
    assert (word(page), where(page)) == ("Breathe as it comes", "Set 1 of 2")
    page.get_by_role("button", name="Set done").click()
    page.clock.run_for(200)
    assert word(page).startswith("Rest")
    page.clock.run_for(20_000)
    assert where(page) == "Set 2 of 2"
    page.wait_for_timeout(600)  # no double click
    page.get_by_role("button", name="Set done").click()
    page.clock.run_for(200)
    assert page.get_by_text("How was it?").is_visible()


def test_stop_is_at_hand_and_easier_leads_back(page: Page, address: str) -> None:
    open_pacer(page, address + COUNT)
    page.get_by_role("button", name="Begin").click()
    page.clock.run_for(8000)
    page.get_by_role("button", name="Stop", exact=True).click()
    page.get_by_role("button", name="Easier: it was too much").click()
    link = page.locator(".tl-pacer [data-tl-after=easier] a")
    assert (link.get_attribute("href") or "").endswith("/wide-ribs/")
    page.get_by_role("button", name="Leave").click()
    wait_until(page, "!document.querySelector('.tl-pacer').open")


def test_who_stops_early_is_not_asked_whether_it_is_ready(page: Page, address: str) -> None:
    open_pacer(page, address + COUNT)
    page.get_by_role("button", name="Begin").click()
    page.clock.run_for(2000)
    page.get_by_role("button", name="Stop", exact=True).click()
    assert not page.get_by_text("How was it?").is_visible()  # nothing to ask about yet
    page.clock.run_for(1000)
    page.get_by_role("button", name="Begin").click()
    page.clock.run_for(8000)
    page.get_by_role("button", name="Stop", exact=True).click()
    assert page.get_by_text("How was it?").is_visible()
    assert not page.get_by_role("button", name="Ready: it went as the lesson says").is_visible()
    assert page.get_by_role("button", name="Again: the same next time").is_visible()


def test_one_more_set_changes_sides_as_every_set_does(page: Page, address: str) -> None:
    open_pacer(page, address + COUNT)
    page.get_by_role("button", name="Begin").click()
    page.clock.run_for(60_000)
    page.get_by_role("button", name="One more set").click()
    page.clock.run_for(100)
    assert word(page).startswith("First side again")
    page.clock.run_for(10_000 + 2 * BREATH_MS)
    assert word(page).startswith("Change sides")
    assert where(page) == "Set 2 of 2 · second side"


def test_a_key_held_down_presses_once(page: Page, address: str) -> None:
    page.clock.install(time=MORNING)
    page.goto(address + COUNT)
    page.get_by_role("button", name="Practise now").focus()
    stop_clock(page)
    for _ in range(8):
        page.keyboard.down("Enter")  # each after the first is a repetition
    page.keyboard.up("Enter")
    assert page.get_by_role("button", name="Begin").is_visible()
    page.get_by_role("button", name="Begin").focus()
    for _ in range(8):
        page.keyboard.down("Enter")
    page.keyboard.up("Enter")
    page.clock.run_for(1000)
    assert word(page).startswith("Get into position")


def test_a_device_that_slept_pauses_where_it_was(page: Page, address: str) -> None:
    open_pacer(page, address + COUNT)
    page.get_by_role("button", name="Begin").click()
    page.clock.run_for(100 + LEAD_MS + BREATH_MS + 2000)
    page.clock.fast_forward(3_600_000)
    assert word(page) == "Paused"
    page.get_by_role("button", name="Go on").click()
    page.clock.run_for(100)
    assert where(page) == "Set 1 of 2 · breath 2 of 2 · first side"


def test_a_translated_word_stays_until_another_comes(page: Page, address: str) -> None:
    open_pacer(page, address + COUNT)
    page.get_by_role("button", name="Begin").click()
    page.clock.run_for(100 + LEAD_MS + 1000)
    page.evaluate("document.querySelector('.tl-pacer__word').textContent = 'Einatmen'")
    page.clock.run_for(1000)
    assert word(page).startswith("Einatmen")
    page.clock.run_for(3000)
    assert word(page).startswith("Breathe out")


@pytest.mark.parametrize(("width", "height"), [(640, 300), (320, 256), (360, 640), (844, 390)])
def test_word_and_stop_are_in_sight_at_any_size(
    page: Page, address: str, width: int, height: int
) -> None:
    """320 by 256 is what is left at a zoom of 400 %: WCAG 2.2, success criterion 1.4.10."""
    page.set_viewport_size({"width": width, "height": height})
    open_pacer(page, address + COUNT)
    page.get_by_role("button", name="Begin").click()
    page.clock.run_for(100 + LEAD_MS + 1000)
    for part in (".tl-pacer__word", ".tl-pacer__number", "[data-tl-pause]", "[data-tl-stop]"):
        box = page.locator(part).bounding_box()
        assert box is not None
        assert box["y"] >= 0
        assert box["y"] + box["height"] <= height


def test_one_more_set_is_offered_once(page: Page, address: str) -> None:
    open_pacer(page, address + COUNT)
    page.get_by_role("button", name="Begin").click()
    page.clock.run_for(60_000)
    page.get_by_role("button", name="One more set").click()
    page.clock.run_for(60_000 + 10_000)
    assert page.get_by_text("How was it?").is_visible()
    assert not page.get_by_role("button", name="One more set").is_visible()


def test_options_are_kept_and_the_picture_can_go(page: Page, address: str) -> None:
    open_pacer(page, address + COUNT)
    page.get_by_role("button", name="Begin").click()
    page.clock.run_for(6000)
    assert page.locator(".tl-pacer__strips").is_visible()
    page.get_by_text("Sound and picture").click()
    page.get_by_label("Picture").uncheck()
    page.clock.run_for(200)
    assert not page.locator(".tl-pacer__strips").is_visible()
    assert word(page).startswith("Breathe in")
    assert kept(page)["options"] == {"picture": False}
    page.reload()
    page.get_by_role("button", name="Practise now").click()
    assert not page.get_by_label("Picture").is_checked()


def test_tones_are_queued_where_the_schedule_has_them(page: Page, address: str) -> None:
    """In real time, since nobody can hurry the audio clock; to a millisecond."""
    page.add_init_script(LOG_TONES)
    open_pacer(page, address + COUNT, is_timed=False)
    page.get_by_role("button", name="Begin").click()
    wait_until(page, "window.tones.length >= 2")
    first, second = page.evaluate("window.tones.slice(0, 2)")
    wanted = page.evaluate(
        "tempoleaf.schedule(tempoleaf.makePlan(JSON.parse("
        "document.querySelector('.tl-pacer').dataset.tlDrill)), 0, 9000)"
        ".filter((event) => tempoleaf.toneOf(event)).map((event) => event.at)"
    )
    assert wanted == [0, 5000]
    assert 1000 * (second - first) == pytest.approx(5000, abs=1)


def test_a_whole_drill_sounds_where_the_schedule_has_it(page: Page, address: str) -> None:
    """Rendered by the browser's own audio engine, which need not keep to time; to a millisecond."""
    page.goto(address + COUNT)
    begins, wanted, loudest = page.evaluate(RENDER)
    assert wanted == [0, 5000, 10_000, 15_000, 20_000, 30_000, 35_000, 40_000, 45_000, 50_000]
    assert begins == pytest.approx(wanted, abs=1)
    assert 0.1 < loudest < 0.2


def test_with_less_motion_the_pair_stands_still(page: Page, address: str) -> None:
    page.emulate_media(reduced_motion="reduce")
    open_pacer(page, address + COUNT)
    page.get_by_role("button", name="Begin").click()
    page.clock.run_for(100 + LEAD_MS + 1500)
    spot = page.locator(".tl-pacer__dot").get_attribute("cx")
    page.clock.run_for(300)
    assert page.locator(".tl-pacer__dot").get_attribute("cx") == spot
    assert word(page) == "Breathe in 2"


@pytest.mark.parametrize("path", [COUNT, OWN_PACE])
def test_nothing_slides_sideways_in_the_pacer(page: Page, address: str, path: str) -> None:
    page.set_viewport_size({"width": 320, "height": 560})
    open_pacer(page, address + path)
    page.get_by_role("button", name="Begin").click()
    page.clock.run_for(7000)
    assert page.locator(".tl-pacer").evaluate("d => d.scrollWidth <= d.clientWidth")


def test_without_script_the_page_says_what_needs_it(browser: Browser, address: str) -> None:
    context = browser.new_context(java_script_enabled=False)
    page = context.new_page()
    page.goto(address + COUNT)
    assert page.get_by_text("The pacer and the ticks need JavaScript.").is_visible()
    assert not page.get_by_role("button", name="Practise now").is_visible()
    context.close()


def test_what_was_practised_moves_to_a_clean_device_by_a_file(
    browser: Browser, page: Page, address: str, tmp_path: Path
) -> None:
    open_pacer(page, address + COUNT)
    page.get_by_role("button", name="Begin").click()
    page.clock.run_for(60_000)
    page.get_by_role("button", name="Ready: it went as the lesson says").click()
    page.locator(".tl-pacer").get_by_role("link", name="My practice").click()
    page.get_by_role("heading", name="Your days").wait_for()
    assert page.get_by_text("Practice on 1 day of the last 28.").is_visible()
    assert page.locator("[data-tl-log] a").text_content() == "Plain count"
    with page.expect_download() as download:
        page.get_by_role("button", name="Save to a file").click()
    file = tmp_path / "mine.json"
    download.value.save_as(file)
    context = browser.new_context()
    other = context.new_page()
    other.goto(address + "my-practice/")
    assert other.get_by_text("No practice has been noted yet.").is_visible()
    other.get_by_label("Add what is in a file").set_input_files(file)
    other.get_by_text("Added: 1 practice").wait_for()
    assert other.locator("[data-tl-log] a").text_content() == "Plain count"
    other.get_by_label("Add what is in a file").set_input_files(file)
    other.get_by_text("Added: 0 practices").wait_for()
    other.get_by_role("button", name="Erase everything").click()
    other.get_by_role("button", name="Yes, erase it now").click()
    assert other.get_by_text("No practice has been noted yet.").is_visible()
    ours = "Object.keys(localStorage).filter((key) => key.startsWith('tempoleaf'))"
    assert other.evaluate(ours) == []
    context.close()


def test_a_file_of_something_else_changes_nothing(page: Page, address: str, tmp_path: Path) -> None:
    page.goto(address + "my-practice/")
    file = tmp_path / "other.json"
    file.write_text('{"version": 2}', encoding="utf-8")
    page.get_by_label("Add what is in a file").set_input_files(file)
    page.get_by_text("This is no file of My practice. Nothing was changed.").wait_for()
    assert kept(page) == {}


def test_ready_lessons_open_what_may_come_next_and_notes_are_shown(
    page: Page, address: str
) -> None:
    page.goto(address + OWN_PACE)
    for box in page.get_by_role("checkbox").all():
        if box.get_attribute("data-tl-tick") is not None:
            box.check()
    page.get_by_label("Your own notes on this lesson").fill("Left side is shy.")
    page.get_by_label("Your own notes on this lesson").blur()
    page.goto(address + "my-practice/")
    assert page.locator("[data-tl-next] a").all_inner_texts() == ["Plain count"]
    assert page.locator("[data-tl-notes] dd").inner_text() == "Left side is shy."


def test_a_double_click_on_set_done_leaves_the_rest_alone(page: Page, address: str) -> None:
    open_pacer(page, address + OWN_PACE)
    page.get_by_role("button", name="Begin").click()
    page.clock.run_for(20_000)
    page.get_by_role("button", name="Set done").dblclick()
    page.clock.run_for(300)
    assert word(page).startswith("Rest")


def test_leaving_twice_stays_on_the_lesson(page: Page, address: str) -> None:
    page.goto(address)
    open_pacer(page, address + COUNT)
    page.get_by_role("button", name="Begin").click()
    page.clock.run_for(300)
    page.get_by_role("button", name="Leave").dblclick()
    wait_until(page, "!document.querySelector('.tl-pacer').open")
    page.wait_for_timeout(300)
    assert page.url == address + COUNT


def test_a_reload_leaves_no_dead_steps_on_the_way_back(page: Page, address: str) -> None:
    page.goto(address)
    page.goto(address + COUNT + "#practise")
    assert page.locator(".tl-pacer").evaluate("dialog => dialog.open")
    page.reload()
    page.go_back()
    page.wait_for_timeout(200)
    assert page.url in {address, address + COUNT}


def test_sides_that_take_turns_are_told(page: Page, address: str) -> None:
    open_pacer(page, address + COUNT)
    page.get_by_role("button", name="Begin").click()
    page.clock.run_for(LEAD_MS + 300)
    assert page.locator(".tl-pacer__said").inner_text() == "Breathe in, first side"
    page.clock.run_for(BREATH_MS)
    assert page.locator(".tl-pacer__said").inner_text() == "Breathe in"


def test_without_an_answer_from_the_sound_it_begins_all_the_same(page: Page, address: str) -> None:
    page.add_init_script("AudioContext.prototype.resume = () => new Promise(() => {});")
    open_pacer(page, address + COUNT, is_timed=False)
    page.get_by_role("button", name="Begin").click()
    page.locator(".tl-pacer__word", has_text="Get into position").wait_for(timeout=5000)
    before = page.locator(".tl-pacer__number").inner_text()
    page.wait_for_timeout(1200)
    assert page.locator(".tl-pacer__number").inner_text() < before  # the page's clock keeps time


def test_going_on_sounds_the_breath_that_begins_again(page: Page, address: str) -> None:
    page.add_init_script(LOG_TONES)
    open_pacer(page, address + COUNT, is_timed=False)
    page.get_by_role("button", name="Begin").click()
    wait_until(page, "window.tones.length >= 1")
    wait_until(page, "document.querySelector('.tl-pacer__word').textContent === 'Breathe in'")
    page.get_by_role("button", name="Pause").click()
    before = page.evaluate("window.tones.length")
    page.get_by_role("button", name="Go on").click()
    page.wait_for_timeout(700)
    assert page.evaluate("window.tones.length") == before + 1
