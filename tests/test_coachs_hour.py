"""A coach's hour: a class from its plan to its rows, the next plan, and what people take home.

Every step is the command that a coach types, or the page that a coach taps; only the clock is
sped up. What is counted at the end was counted apart from the tool: taps, and days on paper.
"""

import csv
import re
import shutil
from collections.abc import Iterator
from dataclasses import dataclass, field
from datetime import UTC, date, datetime, timedelta
from pathlib import Path

import pytest
import vobject  # type: ignore[import-untyped]
from icalendar import Calendar
from playwright.sync_api import Browser, Locator, Page
from pypdf import PdfReader

from builder.machine.browser import find_browser
from tests.browser_scripts.pages import WITHOUT_SOUND, note_faults
from tests.planning.starter import ROOT
from tests.running import run_tool

pytestmark = pytest.mark.skipif(find_browser() is None, reason="no Chromium on this machine")
TUESDAY, THURSDAY = "2026-11-24-mixed", "2026-11-26-small"
WINTER = "courses/2026-12-01-winter.yml"
DAY = "2026-11-24"
EVENING = datetime(2026, 11, 24, 17, tzinfo=UTC)
LEAD_MS = 5_000
SHOWN = "[data-tl-block-tiles]:not([hidden])"
OUTCOMES = {"C5": "Ready", "C6": "Easier", "C8": "Again"}
"""How it goes; all others are ready."""
HOLDER, HOLDS = "C6", (14, 16, 12)
"""Who holds their breath with a stopwatch, and for how many seconds."""
NEW_ON_TUESDAY = ("C5: {lesson: side-lying-breath, look: true}", "C5: side-lying-breath")
"""A turn of Thursday's plan, and the same with nobody who looks."""


@dataclass
class Coach:
    """Who types commands in a folder, and reads what they say."""

    project: Path

    def run(self, *words: str, code: int = 0) -> str:
        """Run a command, which must end as expected and complain of nothing."""
        quiet = ("--quiet",) if words[0] in ("class", "weeks") else ()
        done = run_tool(*words, *quiet, "--project", self.project)
        assert (done.returncode, done.stderr) == (code, ""), done.stdout
        return done.stdout

    def stop_looking(self) -> None:
        """Change Thursday's plan by hand: nobody looks at what is new to C5."""
        path = self.project / f"demo_program/plans/{THURSDAY}.yml"
        text = path.read_text(encoding="utf-8")
        assert NEW_ON_TUESDAY[0] in text
        path.write_text(text.replace(*NEW_ON_TUESDAY), encoding="utf-8")

    def count_rows(self) -> int:
        """Count the rows of both files of records."""
        paths = (self.project / f"demo_program/{name}.csv" for name in ("attendance", "results"))
        return sum(len(read_rows(path)) for path in paths)


@dataclass
class Class:
    """A class on its screen, and what was tapped in it."""

    page: Page
    taps: list[tuple[str, str]] = field(default_factory=list)
    """Who, and an outcome or a reading."""

    def press(self, name: str | re.Pattern[str]) -> None:
        """Press the first button of a name that can be seen."""
        button = self.page.get_by_role("button", name=name, exact=isinstance(name, str))
        button.locator("visible=true").first.click()

    def go_through(self) -> None:
        """Begin every block of the plan, let its time pass and its rest, and tap all outcomes."""
        planned = self.page.locator("[data-tl-show]:not(:has-text('+'))").count()
        for number in range(1, planned + 1):
            self.press(f"Begin block {number}")
            self.page.clock.run_for(LEAD_MS + 1_000)
            heading = self.page.locator(f"#block-{number}").inner_text()
            (minutes,) = re.findall(r"(\d+) min$", heading)
            self.page.clock.fast_forward(int(minutes) * 60_000)
            for tile in self.page.locator(f"{SHOWN} .tile:visible").all():
                self.note(tile)
            self.page.clock.fast_forward(120_000)  # the longest rest
            self.page.clock.run_for(1_000)

    def note(self, tile: Locator) -> None:
        """Tap how it went for whoever is here, and what can be read of them."""
        turn = tile.locator("[data-tl-turn]:visible")
        if not turn.count():
            return
        person = (turn.get_attribute("data-tl-turn") or "").split("/")[0]
        self.tap(turn, person, OUTCOMES.get(person, "Ready"))
        if turn.get_by_role("button", name="belly", exact=True).count():
            self.tap(turn, person, "belly")
        if turn.locator("[data-tl-watch]").count() and person == HOLDER:
            self.time_holds(turn)

    def tap(self, turn: Locator, person: str, name: str) -> None:
        """Tap what is noted, and take the second that a hand needs to the next tile."""
        turn.get_by_role("button", name=name, exact=True).click()
        self.page.clock.run_for(1_000)
        self.taps.append((person, name.lower()))

    def time_holds(self, turn: Locator) -> None:
        """Time the three holds that the lesson has, a minute of rest between."""
        for seconds in HOLDS:
            turn.locator("[data-tl-watch]").click()
            self.page.clock.run_for(seconds * 1000)
            turn.locator("[data-tl-watch]").click()
            self.page.clock.run_for(60_500)
            self.taps.append((HOLDER, str(seconds)))
        assert turn.locator("[data-tl-watch]").inner_text() == "Three are enough"


@pytest.fixture
def coach(tmp_path: Path) -> Coach:
    """Give a coach the starter course and a program in which C8 isn't expected on Tuesday."""
    plans = shutil.ignore_patterns("plans")
    for name in ("content", "demo_program"):
        shutil.copytree(ROOT / name, tmp_path / name, ignore=plans)
    file = tmp_path / f"demo_program/classes/{TUESDAY}.yml"
    text = file.read_text(encoding="utf-8")
    file.write_text(text.replace("C7, C8]", "C7]"), encoding="utf-8")
    return Coach(tmp_path)


@pytest.fixture
def page(browser: Browser) -> Iterator[Page]:
    """Give a tablet without sound, whose clock is ours; no page may ask or complain."""
    context = browser.new_context(
        viewport={"width": 1024, "height": 768}, accept_downloads=True, offline=True
    )
    context.add_init_script(WITHOUT_SOUND)
    opened = context.new_page()
    faults = note_faults(opened)
    opened.clock.install(time=EVENING)
    yield opened
    context.close()
    assert faults == []


def read_rows(path: Path) -> list[dict[str, str]]:
    with path.open(encoding="utf-8", newline="") as opened:
        return list(csv.DictReader(opened))


def teach(page: Page, screen: Path, folder: Path) -> tuple[Class, Path]:
    """Teach the class: C2 stays away after all, and C4 comes in the end."""
    page.goto(screen.as_uri())
    taught = Class(page)
    page.locator("[data-tl-here=C2]").click()
    page.get_by_text("Somebody came as well").click()
    page.locator("[data-tl-here=C4]").click()
    page.clock.pause_at(EVENING + timedelta(minutes=5))
    taught.press("Start the class")
    taught.go_through()
    taught.press("People and file")
    with page.expect_download() as download:
        taught.press("Save the file")
    path = folder / download.value.suggested_filename
    download.value.save_as(path)
    return taught, path


def list_paper_days(sheet: Path) -> set[str]:
    """Return the days that a sheet has boxes for, such as Tue 1."""
    text = "\n".join(page.extract_text() for page in PdfReader(sheet).pages)
    weeks = re.findall(r"Week \d+((?:\s+(?:Mon|Tue|Wed|Thu|Fri|Sat|Sun)\s+\d{1,2})+)", text)
    return {" ".join(each.split()) for week in weeks for each in re.findall(r"\w{3}\s+\d+", week)}


def list_calendar_days(calendar: Path) -> list[date]:
    """Return the days of practice in a calendar, as two libraries read it."""
    content = calendar.read_bytes()
    events = Calendar.from_ical(content).walk("VEVENT")
    days = [each.decoded("DTSTART") for each in events if "Practice" in str(each["SUMMARY"])]
    others = vobject.readOne(content.decode()).vevent_list
    assert days == [each.dtstart.value for each in others if "Practice" in each.summary.value]
    return days


def list_class_days(weeks: str) -> set[date]:
    """Return the class days of a printed programme of weeks."""
    found = re.findall(r"^(?:tue|sat) (\d+ \w+ \d{4}), week", weeks, re.M)
    return {datetime.strptime(each, "%d %b %Y").date() for each in found}


def test_what_is_tapped_in_a_class_is_what_comes_next(
    coach: Coach, page: Page, tmp_path: Path
) -> None:
    """Plan, door, screen, records and the next plan: every number agrees with the taps."""
    thursday, tuesday = f"classes/{THURSDAY}.yml", f"classes/{TUESDAY}.yml"
    earlier = coach.run("class", thursday)
    coach.stop_looking()
    assert "Side-lying breath is new to C5" in coach.run("class", thursday, code=1)

    coach.run("class", tuesday)
    door = coach.run("class", tuesday, "--without", "C4", "--add", "C8", "--print")
    assert "The blocks stay; only who does what has changed." in door
    before = coach.count_rows()
    taught, export = teach(page, tmp_path / f"coach/classes/{TUESDAY}/screen.html", tmp_path)
    noted = [(row["person"], row["outcome"] or row["value"]) for row in read_rows(export)]
    assert sorted(noted) == sorted(taught.taps)
    assert {person for person, _ in noted} == {"C1", "C3", "C5", "C6", "C7", "C8"}

    coach.run("record", str(export))
    assert coach.count_rows() - before == len(taught.taps)
    again = coach.run("record", str(export))
    assert again == f"Nothing is new.\n{len(taught.taps)} rows were there already.\n"

    assert "and keeps every rule" in coach.run("class", thursday)  # nothing of it is new now
    anew = coach.run("class", thursday, "--anew")
    assert anew.split("\nCautions for")[0] != earlier.split("\nCautions for")[0]
    hold = f"comfortable hold: {max(HOLDS)} s, was 38 s on 15 Sep 2026: shorter"
    assert hold in coach.run("person", HOLDER, "--on", DAY)
    take_home(coach)


def take_home(coach: Coach) -> None:
    """Send somebody home: record, sheet, calendar and the weeks ahead say the same."""
    told = coach.run("person", "C5", "--on", DAY)
    assert 'stay with "Side-lying breath": it was ready once, and once more leads on' in told
    said = coach.run("sheet", "C5", "--on", DAY)
    folder = coach.project / "coach/people/C5"
    days = list_calendar_days(folder / "practice.ics")
    assert list_paper_days(folder / "sheet.pdf") == {f"{day:%a} {day.day}" for day in days}
    assert f'"Side-lying breath": {len(days)} days' in said
    class_days = list_class_days(coach.run("weeks", WINTER, "--on", DAY))
    assert len(class_days) == 12
    assert class_days.isdisjoint(days)
