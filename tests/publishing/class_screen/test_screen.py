"""The page of a class as text: whole in itself, and nobody named where others may see it."""

import json
import re
from html.parser import HTMLParser
from pathlib import Path

import pytest

from builder.errors import BuilderError
from builder.publishing.class_screen.proof import prove_class_screen
from builder.publishing.class_screen.screen import write_class_screen
from builder.publishing.coach_folder import write_class_files
from tests.for_everybody.test_html import check_html
from tests.publishing.class_screen.views import NAMES, make_view
from tests.publishing.demo_classes import view_demo


class Page(HTMLParser):
    """What a page loads, and the texts of some of its elements."""

    def __init__(self, html: str) -> None:
        super().__init__()
        self.loads: list[str] = []
        self.policy = ""
        self.feed(html)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        values = dict(attrs)
        address = values.get("src") or (values.get("href") if tag != "a" else "") or ""
        if address and not address.startswith("#"):
            self.loads.append(address)
        if values.get("http-equiv") == "Content-Security-Policy":
            self.policy = values["content"] or ""
        assert not any(name.startswith("on") or name == "style" for name in values), values


@pytest.fixture(scope="module")
def html() -> str:
    return write_class_screen(make_view())


def read_values(html: str) -> dict[str, object]:
    (text,) = re.findall(r'<script type="application/json" data-tl-class>(.*?)</script>', html)
    values: dict[str, object] = json.loads(text)
    return values


def test_the_page_loads_nothing_and_its_policy_allows_its_own_parts_alone(html: str) -> None:
    page = Page(html)
    assert page.loads == []
    rules = dict(rule.split(" ", 1) for rule in page.policy.split("; "))
    assert rules["default-src"] == "'none'"
    assert rules["font-src"] == "data:"
    for name in ("script-src", "style-src"):
        assert all(each.startswith("'sha256-") for each in rules[name].split())
    assert "url(" not in re.sub(r"url\(\"data:font/woff2;base64,[^\"]*\"\)", "", html)


def test_neither_title_nor_file_nor_key_names_a_person(html: str) -> None:
    values = read_values(html)
    (title,) = re.findall(r"<title>(.*?)</title>", html)
    assert title == "Class of 24 November 2026"
    assert values["file"] == "2026-11-24-mixed.csv"
    assert values["key"] == "tempoleaf.class.1:Saltmarsh Studio/2026-11-24-mixed"
    assert not any(name.split()[0] in title for name in NAMES.values())


def test_what_people_are_called_is_no_markup(html: str) -> None:
    assert "<Tshwarang>" not in html
    assert "Naledi &lt;Tshwarang&gt;" in html


def test_caution_privacy_and_stop_signs_are_there(html: str) -> None:
    view = make_view()
    assert html.count(view.caution) == 2  # before the class, and in it
    assert "Private." in html
    for block in view.blocks:
        for sign in {sign for turn in block.turns for sign in turn.stop_if}:
            assert sign in html
    assert html.count("You feel pain, get dizzy, tingle or run short of air") == 1 + len(
        view.blocks
    )


def test_a_changed_lesson_says_so_ahead_of_its_figure_and_before_the_block(html: str) -> None:
    """Somebody who sits while others lie must not be laid down by the picture (ours)."""
    (tile,) = re.findall(r'<div data-tl-turn="C6/even-count".*?<div class="answers"', html, re.S)
    (told,) = re.findall(r"<summary>(Cautions[^<]*)</summary>", tile)
    assert told == "Cautions: another way"
    assert tile.index("Sit on a chair") < tile.index("<svg")
    ahead = re.findall(r'<li data-tl-person="C6">(.*?)</li>', html)
    assert "Even count (mat) <strong>▲ another way</strong>" in ahead[1]


def test_who_sits_instead_has_a_sitting_figure_and_the_word_by_the_name() -> None:
    view = view_demo("2026-11-24-mixed")
    html = write_class_screen(view)
    drawn = 0
    for found in re.finditer(r'<div data-tl-turn="C.*?<div class="answers"', html, re.S):
        labels = re.findall(r'role="img" aria-label="([^"]*)"', found[0])
        if "mark--instead" in found[0]:
            drawn += 1
            assert re.search(r'mark--instead">sitting instead<', found[0])
            assert [label[:18] for label in labels] == ["Sitting on a chair"]
            assert re.search(r"<p>sitting(?: ·|</p>)", html[found.start() : found.end() + 3000])
    moved = [turn for each in view.blocks for turn in each.turns if turn.instead]
    assert drawn >= len(moved) > 0


def test_a_figure_is_drawn_once_however_many_do_it(html: str) -> None:
    assert html.count("<symbol ") == 5
    assert html.count('<use href="#figure-2"/>') == 3  # two who are planned, and one who may come


def test_the_same_class_gives_the_same_page(html: str) -> None:
    assert write_class_screen(make_view()) == html


def test_a_class_in_spanish_speaks_spanish() -> None:
    html = write_class_screen(make_view(language="es"))
    assert '<html lang="es" dir="ltr">' in html
    assert "Start the class" not in html.split("globalThis.tempoleaf")[0]


def test_the_page_is_html_as_the_standard_has_it(html: str, tmp_path: Path) -> None:
    """By the checker of the standard's editors; a file has no origin for a policy to name."""
    without_policy = re.sub(r'<meta http-equiv="Content-Security-Policy"[^>]*>', "", html)
    (tmp_path / "screen.html").write_text(without_policy, encoding="utf-8")
    assert check_html(tmp_path) == []


@pytest.mark.parametrize(
    "text", ["Sit on a chair", "This is general exercise, not medical advice.", "Even count"]
)
def test_a_page_that_lacks_what_it_must_say_is_refused(html: str, text: str) -> None:
    prove_class_screen(make_view(), html)
    with pytest.raises(BuilderError, match=text):
        prove_class_screen(make_view(), html.replace(text, ""))


def test_the_screen_lies_beside_the_card_in_the_coach_folder(tmp_path: Path) -> None:
    paths = write_class_files(make_view(), tmp_path, "a5").paths
    folder = tmp_path / "coach" / "classes" / "2026-11-24-mixed"
    assert folder / "screen.html" in paths
    assert (folder / "screen.html").read_text("utf-8") == write_class_screen(make_view())
