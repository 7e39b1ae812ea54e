"""The page of a group: whole on the screen and on paper, and it asks for nothing."""

import re
from dataclasses import replace
from io import BytesIO
from pathlib import Path
from typing import Literal

import pikepdf
import pytest
from playwright.sync_api import Browser

from builder.planning.group import survey_group
from builder.publishing.group_view.view import GroupView, view_group
from builder.publishing.group_view.write import print_group, write_group_files, write_group_html
from builder.publishing.proof.read_back import read_pdf
from builder.records.person import Person
from builder.records.program import Program
from builder.records.studio import take_from_course
from builder.sums.paper import PAPERS
from tests.for_everybody.judges import ask_axe, find_cut_off
from tests.planning.rows import do, on
from tests.planning.starter import make_person, make_result, read_starter
from tests.publishing.client_sheet.demo import DAY, read_demo

STUDIO = take_from_course(read_starter())


def make_people(count: int) -> dict[str, Person]:
    person = make_person("reflux", "back-pain", cleared={"reflux": on(-400)})
    ids = ("ro-1", *(f"q-{number}" for number in range(2, count + 1)))
    return {each: replace(person, id=each, name=f"Ann <{each}> Wrześnicki") for each in ids}


@pytest.fixture(scope="module")
def view() -> GroupView:
    people = make_people(12)
    rows = [*do("ready-to-start", "r"), *do("belly-breath", "aaa")]
    every = [replace(row, person_id=person) for person in people for row in rows]
    program = Program(people, (), tuple(every))
    group = survey_group(read_starter(), program, on(60), unreadable=("x-9",))
    return view_group(read_starter(), group, STUDIO)


def test_everybody_is_there_with_what_is_to_be_seen_to(view: GroupView) -> None:
    assert [group.kind for group in view.to_see] == [
        *("No clinician's answer on record", "A clinician's answer is old: ask again"),
        *("Away for six weeks or more", "Stuck: look together"),
        "Measure again: what is due, and since when",
    ]
    assert [group.is_caution for group in view.to_see] == [True] * 3 + [False] * 2
    assert {len(group.people) for group in view.to_see} == {12}
    assert view.to_see[0].people[0].what == "back pain"
    assert len(view.rows[0].cells) == len(view.strands)
    assert view.left_out == "Not on this page, because their rows have faults: x-9."


def test_what_is_to_be_measured_is_one_line_a_person_the_oldest_first() -> None:
    person = replace(make_person(), id="ro-1")
    rows = (
        make_result("breath-hold-seconds", 20.0, "comfortable-hold", on(30)),
        make_result("first-mover", "belly", "hands-check-lying", on(3)),
    )
    program = Program({"ro-1": person}, rows, tuple(do("ready-to-start", "r")))
    group = survey_group(read_starter(), program, on(60))
    told = view_group(read_starter(), group, STUDIO).to_see[-1].people
    assert len(told) == 1
    assert (
        "(never); what moves first, Hands check, lying (22 Jan); comfortable hold (" in told[0].what
    )


def test_with_whom_nothing_is_to_be_seen_to_is_told_too() -> None:
    lone = Program({"ro-1": make_person()}, (), tuple(do("ready-to-start", "r")))
    group = survey_group(read_starter(), lone, on(3))
    quiet = replace(group, members=tuple(replace(each, retests=()) for each in group.members))
    view = view_group(read_starter(), quiet, STUDIO)
    assert [(each.kind, [seen.name for seen in each.people]) for each in view.to_see] == [
        ("Nothing on record to see to", ["Ro"])
    ]


def test_eight_people_take_two_pages_and_twenty_four_no_more_than_six() -> None:
    reading = read_demo()
    program = reading.records.program
    group = survey_group(read_starter(), program, DAY, courses=reading.courses)
    assert len(group.members) == 8
    view = view_group(read_starter(), group, STUDIO)
    assert len(read_pdf(print_group(view))) == 2
    many = [replace(each, people=each.people * 3) for each in view.to_see]
    large = replace(view, to_see=tuple(many), rows=view.rows * 3)
    assert len(read_pdf(print_group(large))) <= 6


def test_the_page_asks_for_nothing_and_runs_nothing(view: GroupView) -> None:
    html = write_group_html(view)
    assert "default-src &#39;none&#39;" in html
    assert not re.search(r"<script|\bsrc=|\bhref=|url\(|@import|https?:", html)
    assert "Ann &lt;ro-1&gt;" in html
    assert html.count('role="row"') == 13


def test_the_paper_is_a4_across_with_nothing_under_nine_points(view: GroupView) -> None:
    content = print_group(view)
    pages = read_pdf(content)
    assert {(round(page.width_points), round(page.height_points)) for page in pages} == {(842, 595)}
    assert min(page.smallest_points for page in pages) >= 9
    assert not any(page.has_words_outside for page in pages)
    with pikepdf.open(BytesIO(content)) as pdf:
        assert str(pdf.Root.Lang) == view.language
        assert "/StructTreeRoot" in pdf.Root


def test_its_paper_is_the_studios(view: GroupView) -> None:
    """8.5 by 11 inches, across."""
    page = read_pdf(print_group(replace(view, paper=PAPERS["letter"])))[0]
    assert (page.width_points, page.height_points) == pytest.approx((792, 612), abs=0.5)


@pytest.mark.parametrize("name", ["雄斗", "שָׁלוֹם בן-דוד", "Ada 😀"])
def test_a_name_that_cannot_be_printed_leaves_the_id(view: GroupView, name: str) -> None:
    rows = (replace(view.rows[0], name=name), *view.rows[1:])
    first = view.to_see[0]
    seen = replace(first, people=(replace(first.people[0], name=name), *first.people[1:]))
    other = replace(view, rows=rows, to_see=(seen, *view.to_see[1:]))
    assert name in write_group_html(other)
    assert view.rows[0].id in read_pdf(print_group(other))[0].text


def test_in_another_language_no_english_is_left(view: GroupView) -> None:
    html = write_group_html(replace(view, language="es"))
    assert "Quién está dónde" in html
    assert "Who is where" not in html


def test_both_files_are_written(view: GroupView, tmp_path: Path) -> None:
    html, pdf = write_group_files(replace(view, rows=(), to_see=()), tmp_path / "coach")
    assert "Nobody has come to a class" in html.read_text(encoding="utf-8")
    assert pdf.read_bytes().startswith(b"%PDF")


@pytest.mark.parametrize("scheme", ["light", "dark"])
@pytest.mark.parametrize("width", [320, 768, 1280])
def test_a_telephone_and_a_wide_screen_show_all_of_it(
    view: GroupView, browser: Browser, tmp_path: Path, width: int, scheme: Literal["light", "dark"]
) -> None:
    (tmp_path / "group.html").write_text(write_group_html(view), encoding="utf-8")
    context = browser.new_context(viewport={"width": width, "height": 800}, color_scheme=scheme)
    page = context.new_page()
    asked: list[str] = []
    page.on("request", lambda request: asked.append(request.url))
    page.goto((tmp_path / "group.html").as_uri())
    assert asked == [(tmp_path / "group.html").as_uri()]
    assert page.evaluate("document.documentElement.scrollWidth <= innerWidth")
    assert page.evaluate("getComputedStyle(document.querySelector('.id')).fontWeight") == "400"
    assert find_cut_off(page) == []
    assert ask_axe(page) == []
    context.close()
