"""Air chart: a block for each body, a number for each tempo and effort, and the lessons."""

import re
import xml.etree.ElementTree as ET
from collections.abc import Callable
from dataclasses import replace

from builder.course.course import Colours, Course
from builder.course.reference_body import DEFAULT_BODIES
from builder.course.tempo import Tempo
from builder.drawing.air_chart import draw_air_chart
from builder.drawing.table import DARKEST
from builder.language import language_of
from builder.sums.air import find_air_share
from builder.sums.contrast import LEAST_FOR_TEXT, contrast_ratio

MakeCourse = Callable[..., Course]
SVG = "{http://www.w3.org/2000/svg}"


def make(make_course: MakeCourse) -> Course:
    course = make_course({"Breath": ["1 one", "1 two", "2 three one two"]})
    tempos = {"one": Tempo(4, 1, 4, 1), "two": Tempo(4, 1, 4, 1), "three": Tempo(4, 4, 4, 4)}
    lessons = tuple(
        replace(lesson, drill=replace(lesson.drill, tempo=tempos[lesson.id]))
        for lesson in course.lessons
    )
    effort = lessons[0].drill.effort
    vocabulary = replace(course.vocabulary, efforts={effort.id: effort})
    return replace(course, lessons=lessons, vocabulary=vocabulary, reference_bodies=DEFAULT_BODIES)


def read_blocks(svg: str) -> dict[str, dict[str, list[ET.Element]]]:
    """Return the cells by body and tempo."""
    root = ET.fromstring(svg)  # noqa: S314  # our own text
    return {
        block.attrib["data-body"]: {
            row.attrib["data-tempo"]: [
                cell for cell in row.findall(f"{SVG}g") if cell.get("role") == "cell"
            ]
            for row in block.iter(f"{SVG}g")
            if "data-tempo" in row.attrib
        }
        for block in root.iter(f"{SVG}g")
        if "data-body" in block.attrib
    }


def words(cell: ET.Element) -> list[str]:
    return [text.text or "" for text in cell.iter(f"{SVG}text")]


def test_every_body_has_a_number_for_every_tempo_and_effort(make_course: MakeCourse) -> None:
    course = make(make_course)
    efforts = sorted(course.vocabulary.efforts.values(), key=lambda effort: effort.met)
    blocks = read_blocks(draw_air_chart(course))
    assert list(blocks) == [body.name for body in DEFAULT_BODIES]
    for body in DEFAULT_BODIES:
        assert list(blocks[body.name]) == ["4-1-4-1", "4-4-4-4"]
        for tempo, cells in blocks[body.name].items():
            cycle = Tempo.parse(tempo).cycle_seconds
            shares = [find_air_share(cycle, effort.met, body).percent for effort in efforts]
            assert [int(words(cell)[0].split()[0]) for cell in cells] == shares


def test_big_breaths_carry_a_sign_as_well_as_a_shade(make_course: MakeCourse) -> None:
    course = make(make_course)
    (effort,) = {lesson.drill.effort for lesson in course.lessons}
    heavy = replace(effort, met=2.8)
    vocabulary = replace(course.vocabulary, efforts={effort.id: heavy})
    blocks = read_blocks(draw_air_chart(replace(course, vocabulary=vocabulary)))
    assert [words(cells[0])[0] for cells in blocks["smaller adult"].values()] == ["69 !", "107 !!"]


def test_cells_in_which_lessons_stand_are_framed_and_name_them(make_course: MakeCourse) -> None:
    course = make(make_course)
    svg = draw_air_chart(course)
    effort = course.lessons[0].drill.effort.id
    titles = [lesson.title for lesson in course.lessons]
    cells = [cells[0] for cells in read_blocks(svg)["older adult"].values()]
    assert [words(cell)[1] for cell in cells] == ["2 lessons", "1 lesson"]
    assert {cell[0].attrib["stroke"] for cell in cells} == {"currentColor"}
    lines = re.findall(r">([^<]+)</text>", svg)
    assert f"4-1-4-1 {effort}: {titles[0]} · {titles[1]}" in lines
    assert f"4-4-4-4 {effort}: {titles[2]}" in lines


def test_blocks_stand_below_each_other_or_side_by_side(make_course: MakeCourse) -> None:
    course = make(make_course)
    high, wide = (
        ET.fromstring(draw_air_chart(course, blocks_across=n)).attrib["viewBox"].split()  # noqa: S314
        for n in (1, 3)
    )
    assert float(wide[2]) > 2.9 * float(high[2])
    assert float(wide[3]) < float(high[3])
    assert (
        read_blocks(draw_air_chart(course)).keys()
        == read_blocks(draw_air_chart(course, blocks_across=3)).keys()
    )


def test_the_caution_and_the_sources_stand_on_the_chart(make_course: MakeCourse) -> None:
    svg = draw_air_chart(make(make_course), blocks_across=3)
    assert "licensed clinicians come first" in svg
    assert "Hall and others 2021" in svg
    assert "Limits are ours" in svg


def test_a_course_without_counts_has_a_chart_without_rows(make_course: MakeCourse) -> None:
    course = make_course({"Breath": ["1 one"]})
    lesson = course.lessons[0]
    own_pace = replace(lesson, drill=replace(lesson.drill, tempo=None))
    svg = draw_air_chart(replace(course, lessons=(own_pace,), reference_bodies=DEFAULT_BODIES))
    assert all(rows == {} for rows in read_blocks(svg).values())


def test_numbers_stand_out_from_the_darkest_shade() -> None:
    colours = Colours("#1d2b2a", "#1f5e5b", "#fbfaf6")
    ink, paper = (
        [int(colour[n : n + 2], 16) for n in (1, 3, 5)] for colour in (colours.ink, colours.paper)
    )
    mixed = [round(i * DARKEST + p * (1 - DARKEST)) for i, p in zip(ink, paper, strict=True)]
    shade = "#" + "".join(f"{part:02x}" for part in mixed)
    assert contrast_ratio(colours.ink, shade) >= LEAST_FOR_TEXT


def test_bodies_are_measured_as_their_country_does(make_course: MakeCourse) -> None:
    """An inch is 2.54 cm and a pound 0.45359237 kg (Federal Register 24:5348, 1959)."""
    british = draw_air_chart(make(make_course), language=language_of("en-GB"))
    american = draw_air_chart(make(make_course), language=language_of("en-US"))
    assert "taller adult, 30 years, 175 cm, 70 kg" in british
    assert "taller adult, 30 years, 5 ft 9 in, 154 lb" in american
    assert " cm" not in american
