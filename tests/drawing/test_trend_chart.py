"""The trend chart: readings, scatter and both sides, told in words too."""

import re
import xml.etree.ElementTree as ET
from datetime import date

from hypothesis import given
from hypothesis import strategies as st

from builder.drawing.lettering import measure_text
from builder.drawing.trend_chart import draw_trend_chart
from builder.drawing.trend_scale import TrendLine, TrendRoom
from builder.language import language_of
from tests.languages import VEIL, make_veiled

SVG = "{http://www.w3.org/2000/svg}"
FIRST, SECOND = date(2026, 9, 15), date(2026, 11, 10)
LEFT = TrendLine(((FIRST, 23.0), (SECOND, 14.0)), "left", 2.0)
RIGHT = TrendLine(((FIRST, 15.0), (SECOND, 14.0)), "right", 2.0)


def draw(*lines: TrendLine) -> ET.Element:
    svg = draw_trend_chart("reach", "cm", lines, language_of("en-GB"))
    return ET.fromstring(svg)  # noqa: S314  # our own text


def read_texts(root: ET.Element) -> list[str]:
    return [part.text or "" for part in root.iter(f"{SVG}text")]


def test_nothing_read_is_said() -> None:
    root = draw()
    assert read_texts(root) == ["Nothing measured yet."]
    assert root.findtext(f"{SVG}desc") == "Nothing measured yet."


def test_a_single_reading_is_one_mark_without_a_line() -> None:
    root = draw(TrendLine(((FIRST, 31.0),)))
    assert len(root.findall(f"{SVG}circle")) == 1
    assert read_texts(root) == ["31 cm", "15 Sept"]


def test_sides_differ_by_marker_and_dash() -> None:
    root = draw(LEFT, RIGHT)
    assert len(root.findall(f"{SVG}circle")) == 3  # one of them in the legend
    squares = [part for part in root.findall(f"{SVG}rect") if part.get("fill") == "#ffffff"]
    assert len(squares) == 3
    lines = [p for p in root.findall(f"{SVG}path") if float(p.get("stroke-width", 0)) > 0.3]
    assert {line.get("stroke-dasharray") is None for line in lines} == {True, False}


def test_the_band_is_the_scatter_around_the_first_reading() -> None:
    root = draw(TrendLine(((FIRST, 10.0), (SECOND, 16.0)), "", 2.0))
    band = max(
        (part for part in root.findall(f"{SVG}rect") if part.get("fill-opacity")),
        key=lambda part: float(part.get("width", 0)),
    )
    first, last = root.findall(f"{SVG}circle")
    middle = float(band.get("y", 0)) + float(band.get("height", 0)) / 2
    assert abs(middle - float(first.get("cy", 0))) < 0.02
    per_cm = (float(first.get("cy", 0)) - float(last.get("cy", 0))) / 6
    assert abs(float(band.get("height", 0)) - 4 * per_cm) < 0.03


def test_it_is_told_in_words() -> None:
    told = draw(LEFT, RIGHT).findtext(f"{SVG}desc") or ""
    assert "left: 15 September 2026: 23 cm; 10 November 2026: 14 cm." in told
    assert "by chance" in told


def test_no_colour_carries_meaning() -> None:
    svg = draw_trend_chart("reach", "cm", (LEFT, RIGHT), language_of("en-GB"))
    assert set(re.findall(r'(?:fill|stroke)="(?!none|currentColor)([^"]+)"', svg)) == {"#ffffff"}


def test_every_word_is_said() -> None:
    lines = [TrendLine(LEFT.points, VEIL, 2.0)]
    for drawn in (lines, []):
        svg = draw_trend_chart(VEIL, VEIL, drawn, make_veiled())
        said = [part.text or "" for part in ET.fromstring(svg).iter()]  # noqa: S314  # our own
        assert not [text for text in said if re.search("chance|scatter|measured|Trend", text)]


@given(
    st.lists(st.floats(0, 200).map(lambda value: round(value, 1)), min_size=1, max_size=6),
    st.floats(0.1, 50),
    st.sampled_from([(80.0, 3.2), (178.0, 6.35), (52.0, 3.5)]),
)
def test_marks_and_numbers_stay_on_the_drawing(
    values: list[float], scatter: float, size: tuple[float, float]
) -> None:
    points = tuple((date(2026, 1, 1 + 3 * day), value) for day, value in enumerate(values))
    room = TrendRoom(size[0], 6 * size[1], size[1])
    svg = draw_trend_chart("a", "cm", [TrendLine(points, "", scatter)], language_of("es"), room)
    root = ET.fromstring(svg)  # noqa: S314  # our own text
    _, _, width, height = map(float, (root.get("viewBox") or "").split())
    for mark in root.findall(f"{SVG}circle"):
        assert 0 < float(mark.get("cx", -1)) < width
        assert 0 < float(mark.get("cy", -1)) < height
    for text in root.findall(f"{SVG}text"):
        x, room = float(text.get("x", -1)), measure_text(text.text or "", size[1])
        share = {"end": 1.0, "middle": 0.5}.get(text.get("text-anchor", ""), 0.0)
        assert -0.01 <= x - share * room <= x + (1 - share) * room <= width + 0.01
        assert 0 < float(text.get("y", -1)) <= height
