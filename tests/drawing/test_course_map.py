"""Course map: every lesson once, every arrow once, nothing on top of anything."""

import xml.etree.ElementTree as ET
from collections import Counter
from collections.abc import Callable
from itertools import combinations, pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from builder.course.course import Course
from builder.course.graph import reduce_transitively
from builder.drawing.course_map import draw_course_map
from builder.drawing.lettering import measure_text
from builder.drawing.map_grid import lay_out
from builder.drawing.map_routes import find_routes, share_out_tracks
from builder.drawing.map_sheet import Box, MapSheet, measure_map

MakeCourse = Callable[..., Course]
SVG = "{http://www.w3.org/2000/svg}"
NOTHING = 0.005


def address(name: str) -> str:
    return f"lessons/{name}/"


def measure(course: Course) -> MapSheet:
    grid = lay_out(course)
    routes = find_routes(grid)
    titles = {lesson.id: lesson.title for lesson in course.lessons}
    return measure_map(grid, titles, routes, share_out_tracks(routes))


def read(course: Course) -> ET.Element:
    return ET.fromstring(draw_course_map(course, href=address))  # noqa: S314  # our own text


@st.composite
def tables(draw: st.DrawFn) -> dict[str, list[str]]:
    """Make courses of any shape in which lessons build on earlier ones, in any strand."""
    table: dict[str, list[str]] = {
        f"Strand {index}": [] for index in range(draw(st.integers(1, 4)))
    }
    names: list[str] = []
    for index in range(draw(st.integers(1, 14))):
        strand = draw(st.sampled_from(sorted(table)))
        befores = draw(st.lists(st.sampled_from(names), unique=True, max_size=3)) if names else []
        names.append(f"lesson-{index}")
        table[strand].append(" ".join([str(draw(st.integers(0, 4))), names[-1], *befores]))
    return table


def overlaps(mine: Box, other: Box) -> bool:
    return (
        mine.left < other.left + other.width - NOTHING
        and other.left < mine.left + mine.width - NOTHING
        and mine.top < other.top + other.height - NOTHING
        and other.top < mine.top + mine.height - NOTHING
    )


def check_room(course: Course) -> None:
    sheet = measure(course)
    for mine, other in combinations(sheet.boxes.values(), 2):
        assert not overlaps(mine, other)
    for way in sheet.ways:
        for (x, y), (to_x, to_y) in pairwise(way):
            line = Box(min(x, to_x), min(y, to_y), abs(to_x - x), abs(to_y - y))
            assert not any(overlaps(line, box) for box in sheet.boxes.values())
            assert min(x, to_x) >= 0
            assert max(x, to_x) <= sheet.width
            assert min(y, to_y) >= 0
            assert max(y, to_y) <= sheet.height
    for box in sheet.boxes.values():
        assert sum(overlaps(lane, box) for lane in sheet.lane_boxes) == 1
        assert box.left + box.width <= sheet.width
        assert box.top + box.height <= sheet.height


def check_tracks_apart(course: Course) -> None:
    """Lines along each other come from the same stop, or lead to the same one."""
    grid = lay_out(course)
    routes = find_routes(grid)
    ways = measure(course).ways
    for (mine, way), (other, other_way) in combinations(zip(routes, ways, strict=True), 2):
        if mine.source == other.source or mine.target == other.target:
            continue
        for (a, b), (c, d) in ((p, q) for p in pairwise(way) for q in pairwise(other_way)):
            for axis in (0, 1):
                if a[axis] == b[axis] == c[axis] == d[axis]:
                    along = 1 - axis
                    low = max(min(a[along], b[along]), min(c[along], d[along]))
                    high = min(max(a[along], b[along]), max(c[along], d[along]))
                    assert high - low < NOTHING


@given(tables())
def test_stops_never_overlap_and_no_arrow_crosses_one(
    make_course: MakeCourse, table: dict[str, list[str]]
) -> None:
    check_room(make_course(table))


@given(tables())
def test_arrows_from_different_stops_never_share_a_line(
    make_course: MakeCourse, table: dict[str, list[str]]
) -> None:
    check_tracks_apart(make_course(table))


@given(tables())
def test_every_lesson_and_every_needed_arrow_is_there_once(
    make_course: MakeCourse, table: dict[str, list[str]]
) -> None:
    course = make_course(table)
    root = read(course)
    stops = [stop.get("data-lesson") for stop in root.iter(f"{SVG}a")]
    assert stops == list(course.teaching_order)
    drawn = Counter(
        (arrow.get("data-from"), arrow.get("data-to"))
        for arrow in root.iter(f"{SVG}g")
        if arrow.get("class") == "arrow"
    )
    needed = {
        (before, name)
        for name, befores in reduce_transitively(course.graph).items()
        for before in befores
    }
    assert drawn == Counter(needed)


@given(st.text(st.characters(categories=("L", "N", "P", "S", "Zs")), min_size=1, max_size=60))
def test_any_title_stays_text_and_inside_its_stop(make_course: MakeCourse, title: str) -> None:
    course = make_course({"Breath": ["1 one", "2 two one"]}, {"one": title})
    root = read(course)
    (stop,) = (stop for stop in root.iter(f"{SVG}a") if stop.get("data-lesson") == "one")
    frame = stop[0]
    words = [text.text or "" for text in stop.iter(f"{SVG}text")]
    assert "".join("".join(words).split()) == "".join(title.split())
    for text in stop.iter(f"{SVG}text"):
        assert measure_text(text.text or "", 2.9) <= float(frame.attrib["width"])
        assert float(text.attrib["y"]) < float(frame.attrib["y"]) + float(frame.attrib["height"])
        assert float(text.attrib["y"]) > float(frame.attrib["y"])


def test_a_long_course_keeps_its_room(long_course: Course) -> None:
    check_room(long_course)
    check_tracks_apart(long_course)


def test_a_long_course_reads_on_one_sheet_of_a3(long_course: Course) -> None:
    # ISO 216: A3 is 297 by 420 mm; margins of 10 mm; 6 points is the least to read on a wall.
    sheet = measure(long_course)
    scale = min(277 / sheet.width, 400 / sheet.height)
    assert 2.9 * min(scale, 1) >= 6 * 25.4 / 72


def test_stops_are_links_that_say_what_the_eye_sees(four_lessons: Course) -> None:
    last = list(read(four_lessons).iter(f"{SVG}a"))[-1]
    assert last.get("href") == "lessons/long-exhale/"
    assert last.get("aria-label") == (
        "Long exhale: level 2 of Tempo. Builds on Even count, Side rib breath."
    )


def test_an_arrow_that_a_longer_way_tells_is_left_out(make_course: MakeCourse) -> None:
    course = make_course({"Breath": ["1 one", "2 two one", "3 three two one"]})
    arrows = [g.get("data-to") for g in read(course).iter(f"{SVG}g") if g.get("data-from") == "one"]
    assert arrows == ["two"]


def test_a_course_without_lessons_still_gives_a_drawing(make_course: MakeCourse) -> None:
    root = read(make_course({"Breath": []}))
    assert not list(root.iter(f"{SVG}a"))


@pytest.mark.parametrize("name", ["four_lessons"])
def test_maps_look_as_agreed(
    golden: Callable[[str, str], None], request: pytest.FixtureRequest, name: str
) -> None:
    course: Course = request.getfixturevalue(name)
    golden("map-four-lessons", draw_course_map(course, href=address))
