"""The language of drawings: with a word for everything, no English word is left in one."""

import re
import xml.etree.ElementTree as ET
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

import pytest

from builder.course.course import Course
from builder.course.demand import AXES
from builder.course.figure import Figure
from builder.course.reference_body import DEFAULT_BODIES
from builder.course.tempo import Tempo
from builder.drawing.air_chart import draw_air_chart
from builder.drawing.axis_words import name_axes
from builder.drawing.course_map import draw_course_map
from builder.drawing.demand_chart import draw_demand_chart
from builder.drawing.figure.motion import draw_motion
from builder.drawing.figure.pair import draw_pair
from builder.drawing.labels import ENGLISH, Labels
from builder.drawing.lettering import measure_text
from builder.drawing.table import LETTER
from builder.drawing.tempo_strip import draw_tempo_strip
from builder.reading.course_folder import read_course
from tests.languages import VEIL, make_language, make_veiled

ROOT = Path(__file__).parents[2]
SVG = "{http://www.w3.org/2000/svg}"
WORD = re.compile("[A-Za-z]+")
TOLD = (f"{SVG}text", f"{SVG}title", f"{SVG}desc")
AUTHORS = {"Hall", "Bowerman", "Radford", "West", "Devine", "Liu"}
VEILED = Labels(make_veiled())


@pytest.fixture(scope="module")
def course() -> Course:
    """Return the starter course, in which nearly everything that can be drawn is."""
    course = read_course(ROOT).course
    assert course is not None
    return course


def list_texts(drawing: str) -> Iterator[str]:
    """Yield what a drawing shows or tells."""
    for part in ET.fromstring(drawing).iter():  # noqa: S314  # our own text
        if part.tag in TOLD:
            yield part.text or ""
        if "aria-label" in part.attrib:
            yield part.attrib["aria-label"]


def find_english(drawing: str) -> set[str]:
    """Return the words that were not said."""
    texts = list(list_texts(drawing))
    assert any(VEIL in text for text in texts)
    return {word for text in texts for word in WORD.findall(text)}


def veil(course: Course) -> Course:
    """Return a course whose own words have no English letters either."""
    words = course.vocabulary
    strands = {name: replace(strand, title=VEIL) for name, strand in words.strands.items()}
    efforts = {
        name: replace(effort, id=VEIL * count)
        for count, (name, effort) in enumerate(words.efforts.items(), start=1)
    }
    lessons = [
        replace(
            lesson,
            title=VEIL,
            strand=strands[lesson.strand.id],
            drill=replace(lesson.drill, effort=efforts[lesson.drill.effort.id]),
        )
        for lesson in course.lessons
    ]
    return replace(
        course,
        settings=replace(course.settings, title=VEIL),
        vocabulary=replace(words, strands=strands, efforts=efforts),
        lessons=tuple(lessons),
        reference_bodies=DEFAULT_BODIES,
    )


def list_figures(course: Course) -> Iterator[Figure]:
    return (lesson.figure for lesson in course.lessons if lesson.figure)


def test_a_figure_is_told_without_an_english_word(course: Course) -> None:
    for figure in list_figures(course):
        assert not find_english(draw_pair(figure, "a", labels=VEILED).svg)
        assert not find_english(draw_motion(figure, "a", labels=VEILED).svg)


def test_a_tempo_strip_has_no_english_word(course: Course) -> None:
    tempos = {lesson.drill.tempo for lesson in course.lessons} | {None, Tempo(4, 2, 6, 1)}
    for tempo in tempos:
        assert not find_english(draw_tempo_strip(tempo, labels=VEILED))


def test_a_map_has_no_english_word_of_ours(course: Course) -> None:
    assert not find_english(draw_course_map(veil(course), href=str, language=make_veiled()))


def test_a_demand_chart_has_no_english_word_of_ours(course: Course) -> None:
    assert not find_english(draw_demand_chart(veil(course), make_veiled()))


def test_an_air_chart_has_no_english_word_but_names_of_authors(course: Course) -> None:
    drawing = draw_air_chart(veil(course), language=make_veiled())
    assert find_english(drawing) <= AUTHORS
    assert "1,3" in drawing


def test_charts_speak_english_where_the_course_does(course: Course) -> None:
    english = ENGLISH.language
    assert draw_demand_chart(course) == draw_demand_chart(course, english)
    assert draw_air_chart(course) == draw_air_chart(course, language=english)


def test_every_axis_has_a_word() -> None:
    assert tuple(name_axes(ENGLISH.language).values()) == AXES
    assert set(name_axes(make_veiled())) == set(AXES)


def test_long_heads_of_a_demand_chart_stand_clear_of_each_other(four_lessons: Course) -> None:
    german = make_language("de", {"balance": "Gleichgewicht", "rotation": "Rumpfdrehung"})
    root = ET.fromstring(draw_demand_chart(four_lessons, german))  # noqa: S314  # our own text
    heads = [part for part in root.iter(f"{SVG}text") if part.get("role") == "columnheader"][1:]
    assert "Gleichgewicht" in [head.text for head in heads]
    halves = [measure_text(head.text or "", LETTER) / 2 for head in heads]
    middles = [float(head.attrib["x"]) for head in heads]
    for index in range(len(heads) - 1):
        assert middles[index] + halves[index] < middles[index + 1] - halves[index + 1]
    assert middles[-1] + halves[-1] < float(root.attrib["viewBox"].split()[2])
