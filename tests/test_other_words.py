"""A site whose scripts speak another language: what they write, speak and name is all in it.

The language is a made-up one, each text of the catalogues between marks, so that a word which came
past them stands out whatever translations there are; its dates and numbers are Spanish.
"""

import shutil
from collections.abc import Iterator
from gettext import NullTranslations
from pathlib import Path

import pytest
from babel import Locale
from playwright.sync_api import BrowserContext, Locator, Page

from builder.language import Language
from builder.machine.browser import find_browser
from builder.publishing.pages.assets import SCRIPTS, write_words
from builder.publishing.site.offline import WORKER, write_worker
from builder.work.folder_files import FolderFiles
from tests.browser_scripts.pages import (
    MORNING,
    NAME,
    build_course,
    note_faults,
    open_browser,
    serve_folder,
    stop_clock,
    wait_until,
)
from tests.catalogues import find_words
from tests.conftest import copy_small_course

pytestmark = pytest.mark.skipif(find_browser() is None, reason="no Chromium on this machine")
LESSON = "lessons/count/plain-count/"
TABLE = """\
ask_first: [You feel ill today]
questions:
  - {id: hold, text: A comfortable hold, timed: true}
start:
  - strand: count
    ways: [{lesson: plain-count, why: It is the first count.}]
"""
FIGURE = """\
figure:
  pose: dead-bug
  exhale: {spine: {tuck: 14}}
reviewed:"""
PRACTISED = """() => {
  for (const lesson of ["plain-count", "plain-count", "wide-ribs"])
    tempoleaf.practice.record(lesson, "ready", new Date());
  tempoleaf.practice.change((data) => {
    data.notes["plain-count"] = "Shy";
    data.ticks["plain-count"] = ["0"];
  });
}"""
SOUND_BYTES = 1_500_000


def write_marked_words() -> str:
    """Write the words of the scripts, each between marks."""
    marked: dict[str, str | list[str]] = {}
    for message in find_words():
        if isinstance(message.id, str):
            marked[message.id] = f"«{message.id}»"
        elif message.id:
            marked[message.id[0]] = [f"«{form}»" for form in message.id]
    return write_words(Language("es", Locale("es"), NullTranslations(), marked))


@pytest.fixture(scope="module")
def site(shelf: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    project = copy_small_course(tmp_path_factory.mktemp("other") / "project")
    (project / "content" / "placement.yml").write_text(TABLE, encoding="utf-8")
    lesson = project / "content" / f"{LESSON.rstrip('/')}.md"
    lesson.write_text(lesson.read_text("utf-8").replace("reviewed:", FIGURE, 1), "utf-8")
    folder = build_course(shelf, project, strict=False)
    (folder / SCRIPTS[0]).write_text(write_marked_words(), encoding="utf-8")
    (folder / "tracks").mkdir(exist_ok=True)
    (folder / "tracks" / "soft.flac").write_bytes(bytes(SOUND_BYTES))
    write_worker(FolderFiles(folder))
    return folder


@pytest.fixture(scope="module")
def served(site: Path) -> Iterator[tuple[BrowserContext, str]]:
    with serve_folder(site) as port, open_browser(safe_port=port) as browser:
        yield browser.new_context(), f"http://{NAME}:{port}/"


@pytest.fixture
def page(served: tuple[BrowserContext, str]) -> Iterator[Page]:
    context, address = served
    page = context.new_page()
    faults = note_faults(page)
    page.goto(address)
    page.evaluate("localStorage.clear()")
    yield page
    page.close()
    assert faults == []


@pytest.fixture
def address(served: tuple[BrowserContext, str]) -> str:
    return served[1]


def read(found: Locator) -> str:
    return " ".join((found.text_content() or "").split())


def test_my_practice_tells_days_rows_and_what_was_done(page: Page, address: str) -> None:
    page.evaluate(PRACTISED)
    page.goto(f"{address}my-practice/")
    told = page.locator("[data-tl-told]")
    assert read(page.locator("[data-tl-days]")) == (
        "«Practice on 1 day of the last 28. Days of rest belong to it.»"
    )
    row = page.locator("[data-tl-log] li").first
    assert read(row).startswith("«")
    assert "«ready»" in read(row)
    day = page.evaluate(
        'new Date().toLocaleDateString("es", {weekday: "short", day: "numeric", month: "long"})'
    )
    assert day in read(row)
    page.locator("[data-tl-each] summary").click()
    button = row.get_by_role("button")
    assert (read(button), button.get_attribute("aria-label")) == (
        *("«Take out»", f"«Take out Wide ribs, {day}»"),
    )
    button.click()
    assert read(told) == "«One practice is taken out.»"
    page.get_by_role("button", name="Show the code").click()
    assert read(page.locator("[data-tl-code-where]")).startswith("«Code 1 of 1. Point")
    name = page.locator(".tl-code__picture").get_attribute("aria-label")
    assert name == "«QR code. Code 1 of 1»"
    page.get_by_role("button", name="Erase everything").click()
    page.get_by_role("button", name="Yes, erase it now").click()
    assert read(told) == "«Everything is erased from this device.»"


def test_what_was_scanned_is_told(page: Page, address: str) -> None:
    rows = "log.plain-count=fv7iA&ticks.wide-ribs=0&note.wide-ribs=Shy"
    page.goto(f"{address}my-practice/#take=1.2&{rows}")
    assert read(page.locator("[data-tl-offered]")) == (
        "«What you scanned holds ««1 practice», «ticks of 1 lesson» and «1 note»».»"
    )
    page.get_by_role("button", name="Add it to this device").click()
    assert read(page.locator("[data-tl-told]")) == (
        "«Added: 1 practice, and what there was of ticks and notes.» "
        "«This was code 1 of 2: scan the others too, in any order.»"
    )


def test_lists_mark_what_is_done_and_what_comes_next(page: Page, address: str) -> None:
    page.evaluate(PRACTISED)
    page.goto(f"{address}map/")
    marks = {read(mark) for mark in page.locator(".tl-mark").all()}
    assert marks <= {"«✓ ready»", "«→ may come next»"}
    assert "«✓ ready»" in marks


def test_a_figure_is_named_and_words_are_spoken_in_the_language(page: Page, address: str) -> None:
    page.add_init_script(
        "SpeechSynthesis.prototype.speak = (speech) => { window.lang = speech.lang; }"
    )
    page.goto(f"{address}{LESSON}")
    button = page.locator(".tl-figure__button")
    button.click()
    assert read(button) == "«Stop moving»"
    assert read(page.locator(".tl-figure__moving p")).startswith("«")
    button.click()
    assert read(button) == "«Show it moving»"
    page.evaluate("tempoleaf.speak('Breathe in')")
    assert page.evaluate("window.lang") == "es"


def test_the_self_check_is_asked_and_answered(page: Page, address: str) -> None:
    page.clock.install(time=MORNING)
    page.goto(f"{address}start-here/")
    stop_clock(page)
    on = page.locator("[data-tl-on]")
    assert read(on) == "«Go on»"
    page.get_by_label("None of them").check()
    on.click()
    assert read(on) == "«Show where to start»"
    hold = page.locator("[data-tl-hold]")
    assert read(hold) == "«Start the hold»"
    page.locator("[data-tl-calm]").check()
    hold.click()
    page.clock.run_for(9000)
    assert read(page.locator("[data-tl-time]")) == "«9 s»"
    assert read(hold) == "«First urge: stop»"
    hold.click()
    page.clock.run_for(400)
    assert read(page.locator("[data-tl-tries]")) == (
        "«Tries: «9 s».» «Up to 2 more, after a minute of normal breathing.»"
    )
    on.click()
    assert read(page.locator("[data-tl-given-on]")) == (
        "«What you answered on 25 de noviembre de 2026»"
    )
    assert read(page.locator("[data-tl-held]")).startswith("«Your comfortable hold: «9 s».")
    assert read(page.locator("[data-tl-start] li")).startswith("«")


def test_keeping_files_and_a_newer_edition_are_told(
    page: Page, address: str, site: Path, tmp_path: Path
) -> None:
    page.goto(f"{address}my-practice/")
    page.evaluate("navigator.serviceWorker.ready")
    wait_until(page, "navigator.serviceWorker.controller !== null")
    button = page.locator("[data-tl-groups] button").first
    button.wait_for()
    assert read(button) == "«Keep the practice sounds, «1,5 MB»»"
    button.click()
    page.get_by_text("«The practice sounds are kept on this device.»").wait_for()
    newer = shutil.copytree(site, tmp_path / "newer")
    home = newer / "index.html"
    home.write_text(f"{home.read_text('utf-8')}<!-- newer -->", "utf-8")
    write_worker(FolderFiles(newer))
    for name in ("index.html", WORKER):
        shutil.copy(newer / name, site / name)
    page.evaluate("navigator.serviceWorker.getRegistration().then((one) => one.update())")
    bar = page.locator(".tl-newer")
    bar.wait_for()
    assert read(bar) == "«A newer version of this course is here.» «Show it»"
    assert f'"{SCRIPTS[0]}":' in (site / WORKER).read_text("utf-8")
