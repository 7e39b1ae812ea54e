"""The pair: well-formed, small, the same every time, and told in words."""

import re
import subprocess
import sys
import xml.etree.ElementTree as ET
from dataclasses import replace
from pathlib import Path

import pytest

from builder.course.base_poses import BASE_POSES
from builder.course.figure import View
from builder.course.pose import Arm, Leg
from builder.drawing.figure.pair import Room, draw_in_breath, draw_pair
from builder.drawing.labels import ENGLISH, Labels
from builder.drawing.lettering import measure_text
from tests.languages import make_language

ROOT = Path(__file__).parents[3]
SVG = "{http://www.w3.org/2000/svg}"
NAMES = sorted(BASE_POSES)
LARGEST = 12_000
"""Bytes of one drawing."""


def parse(drawing: str) -> ET.Element:
    return ET.fromstring(drawing)  # noqa: S314  # our own text


def list_ids(drawing: str) -> list[str]:
    return re.findall(r' id="([^"]+)"', drawing)


@pytest.mark.parametrize("base", NAMES)
def test_a_pair_is_well_formed_with_a_title_and_a_description(make_figure, base: str) -> None:
    root = parse(draw_pair(make_figure(base, breath=("belly",)), "one").svg)
    title, description = root.find(f"{SVG}title"), root.find(f"{SVG}desc")
    assert root.tag == f"{SVG}svg"
    assert root.attrib["role"] == "img"
    assert title is not None
    assert description is not None
    assert (title.text or "").lower() == BASE_POSES[base].words
    assert "On the in-breath the belly " in (description.text or "")


@pytest.mark.parametrize("base", NAMES)
@pytest.mark.parametrize("view", list(View))
def test_a_pair_is_under_twelve_kilobytes(make_figure, base: str, view: View) -> None:
    drawing = draw_pair(
        make_figure(base, breath=("belly", "sides"), props={"mat": "under"}, view=view),
        "a-lesson-with-a-long-name",
    ).svg
    assert len(drawing.encode("utf-8")) < LARGEST


@pytest.mark.parametrize("base", NAMES)
def test_an_in_breath_alone_keeps_its_room_and_says_what_the_pair_says(
    make_figure, base: str
) -> None:
    figure = make_figure(base, breath=("belly",), props={"mat": "under"})
    alone, pair = draw_in_breath(figure, "one", Room(15, 11)), draw_pair(figure, "two")
    left, top, width, height = map(float, parse(alone.svg).attrib["viewBox"].split())
    assert (left, top) == (0, 0)
    assert width <= 150.01  # tenths of a millimetre
    assert height <= 110.01
    assert len(list_ids(alone.svg)) * 2 == len(list_ids(pair.svg))
    words = [parse(each.svg).findtext(f"{SVG}desc") for each in (alone, pair)]
    assert words[0] == words[1]


def test_two_figures_on_a_page_share_no_id_and_every_use_finds_its_part(make_figure) -> None:
    first = draw_pair(make_figure("dead-bug"), "first").svg
    second = draw_pair(make_figure("dead-bug"), "second").svg
    ids = list_ids(first) + list_ids(second)
    assert len(ids) == len(set(ids)) > 10
    for drawing in (first, second):
        assert set(re.findall(r'href="#([^"]+)"', drawing)) <= set(list_ids(drawing))


def list_labels(drawing: str) -> list[str | None]:
    return [element.text for element in parse(drawing).iter(f"{SVG}text")]


def test_both_breaths_are_labelled_in_the_language_of_the_course(make_figure) -> None:
    assert list_labels(draw_pair(make_figure(), "a").svg) == ["in-breath", "out-breath"]
    german = make_language("de", {"in-breath": "Einatmen", "out-breath": "Ausatmen"})
    pair = draw_pair(make_figure(), "a", labels=Labels(german))
    assert list_labels(pair.svg) == ["Einatmen", "Ausatmen"]


def test_a_pair_keeps_to_its_room(make_figure) -> None:
    for base in NAMES:
        root = parse(draw_pair(make_figure(base), "a", Room(width_mm=60, tallest_mm=30)).svg)
        _, _, width, height = (float(part) for part in root.attrib["viewBox"].split())
        assert width == pytest.approx(600)
        assert height <= 300.01


def test_moves_show_as_arrows_on_both_breaths(make_figure) -> None:
    moving = make_figure("dead-bug", left_arm=Arm(lift=150), right_leg=Leg(hip=45, knee=30))
    assert draw_pair(moving, "a").svg.count('class="move"') == 4
    assert 'class="move"' not in draw_pair(make_figure("dead-bug"), "a").svg


def test_a_breath_shows_as_an_arrow_on_both_breaths(make_figure) -> None:
    assert draw_pair(make_figure(breath=("belly",)), "a").svg.count('class="breath"') == 2


def test_nothing_is_fetched_and_nothing_runs(make_figure) -> None:
    drawing = draw_pair(make_figure(props={"mat": "under"}), "a").svg
    assert not re.search(r"<(script|image|style|foreignObject)\b|\bon\w+=", drawing)
    assert re.findall(r"https?://[^\"]+", drawing) == ["http://www.w3.org/2000/svg"]


def test_the_same_figure_gives_the_same_bytes_in_every_process(make_figure) -> None:
    script = (
        "from builder.course.base_poses import BASE_POSES\n"
        "from builder.course.figure import BreathPlace, Figure, Stance, View\n"
        "from builder.drawing.figure.pair import draw_pair\n"
        "base = BASE_POSES['dead-bug']\n"
        "stance = Stance('dead-bug', base.pose, base.contacts)\n"
        "figure = Figure(View.SIDE, stance, stance, (BreathPlace.BELLY,), "
        "{'mat': 'under', 'ball': 'pinned'})\n"
        "print(draw_pair(figure, 'a').svg)\n"
    )
    drawings = {
        subprocess.run(
            [sys.executable, "-c", script],
            cwd=ROOT,
            env={"PYTHONHASHSEED": seed},
            capture_output=True,
            text=True,
            check=True,
        ).stdout
        for seed in ("1", "2")
    }
    assert len(drawings) == 1
    assert parse(drawings.pop()) is not None


def test_a_snug_pair_leaves_the_room_beside_a_high_figure(make_figure) -> None:
    wide = draw_pair(make_figure("back-legs-long"), "a", Room(60, 30, is_snug=True))
    high = draw_pair(make_figure("standing"), "a", Room(60, 30, is_snug=True))
    assert wide.width_mm == pytest.approx(60)
    assert high.width_mm < 40
    for pair in (wide, high):
        _, _, width, height = (float(part) for part in parse(pair.svg).attrib["viewBox"].split())
        assert width == pytest.approx(10 * pair.width_mm, abs=0.01)
        assert height <= 300.01
    labels = [measure_text(label, Room().letter_mm) for label in ENGLISH.breaths]
    assert high.width_mm >= 2 * max(labels)


def test_a_figure_seen_from_above_shows_both_sides_of_the_body(make_figure) -> None:
    figure = make_figure("back-knees-bent", view=View.ABOVE, breath=("sides",))
    drawing = draw_pair(figure, "a").svg
    assert drawing.count('class="breath"') == 4
    assert 'class="breath"' not in draw_pair(replace(figure, view=View.SIDE), "a").svg
