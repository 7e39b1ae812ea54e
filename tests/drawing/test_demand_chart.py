"""Demand chart: the ranks of every lesson, and where they rise."""

import xml.etree.ElementTree as ET
from collections.abc import Callable
from dataclasses import replace

from builder.course.course import Colours, Course
from builder.course.demand import AXES
from builder.course.tempo import Tempo
from builder.drawing.demand_chart import draw_demand_chart
from builder.sums.contrast import LEAST_FOR_TEXT, contrast_ratio

MakeCourse = Callable[..., Course]
SVG = "{http://www.w3.org/2000/svg}"


def read_rows(course: Course) -> dict[str, list[str]]:
    root = ET.fromstring(draw_demand_chart(course))  # noqa: S314  # our own text
    return {
        row.attrib["data-lesson"]: [
            text.text or "" for cell in row.findall(f"{SVG}g") for text in cell.iter(f"{SVG}text")
        ]
        for row in root.iter(f"{SVG}g")
        if "data-lesson" in row.attrib
    }


def slow_down(course: Course, name: str, tempo: Tempo) -> Course:
    """Give one lesson another tempo."""
    lessons = tuple(
        replace(lesson, drill=replace(lesson.drill, tempo=tempo)) if lesson.id == name else lesson
        for lesson in course.lessons
    )
    return replace(course, lessons=lessons)


def test_every_lesson_has_a_number_on_every_axis(long_course: Course) -> None:
    rows = read_rows(long_course)
    assert set(rows) == set(long_course.by_id)
    assert all(len(cells) == len(AXES) for cells in rows.values())


def test_a_rise_over_the_hardest_before_is_marked(make_course: MakeCourse) -> None:
    course = make_course({"Breath": ["1 one", "1 two", "2 three one two"]})
    course = slow_down(slow_down(course, "two", Tempo(5, 1, 5, 1)), "three", Tempo(6, 4, 6, 4))
    rows = read_rows(course)
    assert rows["two"][AXES.index("tempo")] == "2"
    assert rows["three"][AXES.index("tempo")] == "4 +2"
    assert rows["three"][AXES.index("hold")] == "2 +2"


def test_a_first_lesson_has_no_mark(make_course: MakeCourse) -> None:
    course = slow_down(make_course({"Breath": ["1 one"]}), "one", Tempo(8, 8, 8, 8))
    assert not any("+" in cell for cell in read_rows(course)["one"])


def test_numbers_stand_out_from_the_darkest_shade(make_course: MakeCourse) -> None:
    # WCAG 2.2 (W3C, 2023), success criterion 1.4.3.
    course = slow_down(make_course({"Breath": ["1 one"]}), "one", Tempo(8, 8, 8, 8))
    root = ET.fromstring(draw_demand_chart(course))  # noqa: S314  # our own text
    darkest = max(float(r.get("fill-opacity", "0")) for r in root.iter(f"{SVG}rect"))
    assert darkest > 0.3
    colours = Colours()
    for ink, paper in ((colours.ink, colours.paper), ("#000000", "#ffffff")):
        pairs = zip(bytes.fromhex(ink[1:]), bytes.fromhex(paper[1:]), strict=True)
        shade = "#" + bytes(round(i * darkest + p * (1 - darkest)) for i, p in pairs).hex()
        assert contrast_ratio(ink, shade) >= LEAST_FOR_TEXT


def test_strand_and_lesson_titles_are_escaped(make_course: MakeCourse) -> None:
    drawing = draw_demand_chart(make_course({"In & <out>": ["1 one"]}, {"one": "<b>A & B</b>"}))
    assert "In &amp; &lt;out&gt;" in drawing
    assert "&lt;b&gt;A &amp; B&lt;/b&gt;" in drawing


def test_charts_look_as_agreed(golden: Callable[[str, str], None], four_lessons: Course) -> None:
    golden(
        "demand-four-lessons",
        draw_demand_chart(slow_down(four_lessons, "long-exhale", Tempo(4, 2, 6, 1))),
    )
