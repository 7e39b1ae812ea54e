"""The moving figure: the pair's two ends, and steps that a browser can go between."""

import json
import re
import xml.etree.ElementTree as ET
from dataclasses import replace
from itertools import pairwise

import pytest

from builder.course.base_poses import BASE_POSES
from builder.course.figure import Stance
from builder.course.pose import Arm, Leg
from builder.drawing.figure.motion import STEPS, draw_motion

NAMES = sorted(BASE_POSES)
LARGEST = 12_000
ARC_FLAGS = re.compile(r"A \S+ \S+ 0 ([01]) ([01])")
"""Between 0 and 1 there is no flag, so what goes from one to the other can't be drawn."""


def read_frames(figure, name: str = "a") -> list[list[list[str]]]:
    return json.loads(draw_motion(figure, name).frames)


@pytest.mark.parametrize("base", NAMES)
def test_every_step_has_the_same_parts_with_the_same_commands(make_figure, base: str) -> None:
    frames = read_frames(make_figure(base, breath=("belly", "sides")))
    assert len(frames) == STEPS + 1
    for frame in frames:
        for (tone, path), (first_tone, first_path) in zip(frame, frames[0], strict=True):
            assert tone == first_tone
            assert re.findall("[A-Z]", path) == re.findall("[A-Z]", first_path)


@pytest.mark.parametrize("base", NAMES)
def test_the_flags_of_an_arc_stay_from_step_to_step(make_figure, base: str) -> None:
    frames = read_frames(make_figure(base, left_arm=Arm(lift=60), right_leg=Leg(hip=60, knee=40)))
    for before, after in pairwise(frames):
        for (_, first), (_, second) in zip(before, after, strict=True):
            if re.findall("[A-Z]", first) == re.findall("[A-Z]", second):
                assert ARC_FLAGS.findall(first) == ARC_FLAGS.findall(second)


def test_the_drawing_is_the_first_step(make_figure) -> None:
    motion = draw_motion(make_figure("dead-bug", left_arm=Arm(lift=150)), "a")
    drawn = re.findall(r' id="[^"]+" d="([^"]+)"', motion.svg)
    assert drawn == [path for _, path in json.loads(motion.frames)[0]]


def test_a_limb_moves_and_what_stays_stays(make_figure) -> None:
    figure = make_figure("dead-bug", left_arm=Arm(lift=150), right_leg=Leg(hip=45, knee=30))
    first, *_, last = read_frames(figure)
    changed = sum(a != b for a, b in zip(first, last, strict=True))
    assert 0 < changed < len(first)


def test_a_still_figure_has_steps_that_are_all_alike(make_figure) -> None:
    frames = read_frames(make_figure("back-legs-long"))
    assert all(frame == frames[0] for frame in frames)


@pytest.mark.parametrize("base", NAMES)
def test_a_moving_figure_is_small_and_told_in_words(make_figure, base: str) -> None:
    motion = draw_motion(make_figure(base, props={"mat": "under"}), "a")
    root = ET.fromstring(motion.svg)  # noqa: S314  # our own text
    assert len(motion.svg.encode("utf-8")) < LARGEST
    assert [child.tag.rpartition("}")[2] for child in root][:2] == ["title", "desc"]


def test_two_moving_figures_share_no_id(make_figure) -> None:
    drawings = [draw_motion(make_figure(), name).svg for name in ("first", "second")]
    ids = [each for drawing in drawings for each in re.findall(r' id="([^"]+)"', drawing)]
    assert len(ids) == len(set(ids))


def test_the_same_figure_moves_the_same_every_time(make_figure) -> None:
    figure = make_figure("squat", breath=("belly",))
    assert draw_motion(figure, "a") == draw_motion(figure, "a")


def test_who_stands_up_is_drawn_all_the_way(make_figure) -> None:
    base = BASE_POSES["standing"]
    up = replace(make_figure("sitting"), exhale=Stance("standing", base.pose, base.contacts))
    assert len(read_frames(up)) == STEPS + 1
