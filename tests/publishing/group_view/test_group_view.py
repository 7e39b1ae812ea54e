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
from tests.for_everybody.judges import ask_axe, find_cut_off
from tests.planning.rows import do, on
from tests.planning.starter import make_person, read_starter


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
    return view_group(read_starter(), group, "Saltmarsh Studio")


def test_everybody_is_there_with_what_is_to_be_seen_to(view: GroupView) -> None:
    row = view.rows[0]
    kinds = list(dict.fromkeys(each.kind for each in row.to_see))
    assert kinds == [
        *("no clinician's answer on record", "clinician's answer is old: ask again"),
        *("away", "stuck: look together", "measure again"),
    ]
    assert [each.is_caution for each in row.to_see][:3] == [True] * 3
    assert len(row.cells) == len(view.strands)
    assert view.left_out == "Not on this page, because their rows have faults: x-9."


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


def test_in_another_language_no_english_is_left(view: GroupView) -> None:
    html = write_group_html(replace(view, language="es"))
    assert "Quién está dónde" in html
    assert "Who is where" not in html


def test_both_files_are_written(view: GroupView, tmp_path: Path) -> None:
    html, pdf = write_group_files(replace(view, rows=()), tmp_path / "coach")
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
