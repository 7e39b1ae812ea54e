"""Every kind of page, and every state of it that a person meets."""

from collections.abc import Callable
from dataclasses import dataclass

from playwright.sync_api import Page

from tests.browser_scripts.pages import WITHOUT_SOUND

COUNTED = "lessons/tempo/box/"
OWN_PACE = "lessons/breath/belly-breath/"
KEEP_SOME = """() => {
  for (const outcome of ["ready", "again", "ready"])
    tempoleaf.practice.record("belly-breath", outcome, new Date());
  tempoleaf.practice.change((data) => { data.notes["belly-breath"] = "Left side is shy."; });
}"""


def leave(_page: Page) -> None:
    """Look at the page as it comes."""


def open_pacer(page: Page) -> None:
    page.get_by_role("button", name="Practise now").click()


def start_pacer(page: Page) -> None:
    open_pacer(page)
    page.evaluate(WITHOUT_SOUND)
    page.get_by_role("button", name="Begin").click()
    page.locator(".tl-pacer__word", has_text="position").wait_for()


def pause_pacer(page: Page) -> None:
    start_pacer(page)
    page.get_by_role("button", name="Pause").click()


def end_pacer(page: Page) -> None:
    """Stop in the first breath, which is asked about; before it, nothing is."""
    start_pacer(page)
    page.clock.run_for(6000)
    page.get_by_role("button", name="Stop", exact=True).click()
    page.get_by_role("button", name="Easier: it was").click()


def ask_a_question(page: Page) -> None:
    page.get_by_label("None of them").check()
    page.locator("[data-tl-on]").click()


def ask_for_the_hold(page: Page) -> None:
    ask_a_question(page)
    while not page.locator("[data-tl-timed]").is_visible():
        page.locator("[data-tl-step]:not([hidden]) input").first.check()
        page.locator("[data-tl-on]").click()


def reach_the_start(page: Page) -> None:
    ask_for_the_hold(page)
    page.get_by_label("I leave this out today").check()
    page.locator("[data-tl-on]").click()
    page.get_by_role("heading", name="Where you may start").wait_for()


def reach_a_clinician(page: Page) -> None:
    page.get_by_label("One or more, or I am not sure").check()
    page.locator("[data-tl-on]").click()


def keep_some(page: Page) -> None:
    page.evaluate(KEEP_SOME)
    page.reload()
    page.locator("[data-tl-each] summary").click()


def show_the_code(page: Page) -> None:
    keep_some(page)
    page.get_by_role("button", name="Show the code").click()


def ask_to_erase(page: Page) -> None:
    keep_some(page)
    page.get_by_role("button", name="Erase everything").click()


def search(page: Page) -> None:
    page.keyboard.press("/")
    page.locator(".md-search__input").press_sequentially("breath")
    page.locator(".md-search-result__link").first.wait_for()


@dataclass(frozen=True)
class Kind:
    """One kind of page in one state."""

    name: str
    path: str
    act: Callable[[Page], None] = leave
    """What brings the page into that state."""


KINDS = (
    Kind("home", ""),
    Kind("author's page", "practise/"),
    Kind("safety", "safety/"),
    Kind("proof of safety", "proof/"),
    Kind("glossary", "glossary/"),
    Kind("props", "props/"),
    Kind("strand", "lessons/tempo/"),
    Kind("lesson with figure and count", COUNTED),
    Kind("lesson at one's own pace", OWN_PACE),
    Kind("old card", f"{COUNTED}#card=ZZZZ"),
    Kind("pacer before", COUNTED, open_pacer),
    Kind("pacer running", COUNTED, start_pacer),
    Kind("pacer paused", COUNTED, pause_pacer),
    Kind("pacer done", COUNTED, end_pacer),
    Kind("map", "map/"),
    Kind("start here", "start-here/"),
    Kind("start here, a question", "start-here/", ask_a_question),
    Kind("start here, the timed question", "start-here/", ask_for_the_hold),
    Kind("start here, a start", "start-here/", reach_the_start),
    Kind("start here, a clinician first", "start-here/", reach_a_clinician),
    Kind("my practice, empty", "my-practice/"),
    Kind("my practice, code", "my-practice/", show_the_code),
    Kind("my practice, full and about to be erased", "my-practice/", ask_to_erase),
    Kind("search", "", search),
    Kind("charts", "coaches/"),
    Kind("sources", "sources/"),
    Kind("author guide", "authors/"),
    Kind("rule", "authors/T101/"),
    Kind("not found", "404.html"),
)
