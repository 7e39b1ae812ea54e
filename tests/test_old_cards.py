"""An old card is scanned: its address is opened after a lesson and after a notice changed."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Page
from typer.testing import CliRunner

from builder.cli.app import make_app
from builder.course.audience import Audience
from builder.machine.browser import find_browser
from builder.reading.course_folder import read_course
from builder.sums.version import find_version
from tests.browser_scripts.pages import note_faults, open_browser, serve_course
from tests.conftest import copy_small_course

pytestmark = pytest.mark.skipif(find_browser() is None, reason="no Chromium on this machine")
HOLD, BELLY = "lessons/count/short-hold/", "lessons/breath/hand-on-belly/"


def release(project: Path, why: str = "") -> None:
    done = CliRunner().invoke(make_app(["release"]), ["release", str(project), "--why", why])
    assert done.exit_code == 0, done.output


def code_of(project: Path, name: str, audience: Audience = Audience.CLIENT) -> str:
    course = read_course(project).course
    assert course is not None
    return find_version(course, course.by_id[name], audience)


def change(path: Path, old: str, new: str) -> None:
    text = path.read_text(encoding="utf-8")
    assert old in text
    path.write_text(text.replace(old, new), encoding="utf-8")


@pytest.fixture(scope="module")
def history(tmp_path_factory: pytest.TempPathFactory) -> tuple[Path, list[str], str]:
    """Release a course, then a changed lesson, then a changed notice; give the lesson's codes."""
    project = copy_small_course(tmp_path_factory.mktemp("cards") / "project")
    content = project / "content"
    release(project)
    codes = [code_of(project, "short-hold")]
    belly = code_of(project, "hand-on-belly")
    change(content / "lessons/count/short-hold.md", "breaths: 5", "breaths: 4")
    release(project, "One breath less in each set.")
    codes.append(code_of(project, "short-hold"))
    notice = content / "notices" / "holding.md"
    (short,) = [line for line in notice.read_text("utf-8").splitlines() if line[:6] == "short:"]
    change(notice, short, "short: Leave holds out with glaucoma.")
    release(project, "A <b>new</b> caution on holds.")
    codes.append(code_of(project, "short-hold"))
    assert len(set(codes)) == 3
    return project, codes, belly


@pytest.fixture(scope="module")
def address(shelf: Path, history: tuple[Path, list[str], str]) -> Iterator[str]:
    with serve_course(shelf, history[0]) as site:
        yield site


@pytest.fixture(scope="module")
def page() -> Iterator[Page]:
    with open_browser() as browser:
        opened = browser.new_page(viewport={"width": 360, "height": 640})
        faults = note_faults(opened)
        yield opened
        assert faults == []


def said(page: Page, address: str) -> tuple[str, list[str]]:
    page.goto("about:blank")
    page.goto(address)
    box = page.locator("[data-tl-age]")
    words = [each.inner_text() for each in box.locator("p").all() if each.is_visible()]
    return " ".join(words), box.locator("li").all_inner_texts()


def test_a_card_of_today_is_current(
    page: Page, address: str, history: tuple[Path, list[str], str]
) -> None:
    words, changes = said(page, f"{address}{HOLD}#card={history[1][2]}")
    assert words.startswith("Your card is current.")
    assert changes == []


def test_an_older_card_is_told_all_that_changed_since(
    page: Page, address: str, history: tuple[Path, list[str], str]
) -> None:
    words, changes = said(page, f"{address}{HOLD}#card={history[1][0].lower()}")
    assert words.startswith("Your card is out of date since ")
    reasons = [change.partition(": ")[2] for change in changes]
    assert reasons == ["One breath less in each set.", "A <b>new</b> caution on holds."]
    _, changes = said(page, f"{address}{HOLD}#card={history[1][1]}")
    assert len(changes) == 1


def test_a_card_without_the_notice_stays_current(
    page: Page, address: str, history: tuple[Path, list[str], str]
) -> None:
    words, _ = said(page, f"{address}{BELLY}#card={history[2]}")
    assert words.startswith("Your card is current.")


def test_a_code_that_is_not_known_is_said_to_be_so(page: Page, address: str) -> None:
    words, _ = said(page, f"{address}{HOLD}#card=ZZZZZ")
    assert words.startswith("This page doesn't know your card, version ZZZZZ.")
    assert said(page, f"{address}{HOLD}#card=<b>") == ("", [])
    assert said(page, f"{address}{HOLD}") == ("", [])


def test_the_page_bears_its_own_version(
    page: Page, address: str, history: tuple[Path, list[str], str]
) -> None:
    page.goto(address + HOLD)
    assert page.get_by_text(f"Version {history[1][2]}.").is_visible()
