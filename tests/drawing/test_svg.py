"""SVG text: escaped, rounded alike, sized in printed millimetres."""

import xml.etree.ElementTree as ET

import pytest
from hypothesis import given
from hypothesis import strategies as st

from builder.drawing.svg import Frame, element, finish, number, path


@given(st.text(), st.text())
def test_no_text_leaves_its_place(words: str, value: str) -> None:
    written = element("text", words, class_=value).text
    found = ET.fromstring(written)  # noqa: S314  # our own text
    assert found.tag == "text"
    assert not list(found)
    assert set(found.attrib) == {"class"}


@given(st.text(st.characters(exclude_categories=("Cc", "Cs"), exclude_characters="\ufffe\uffff")))
def test_text_reads_back_as_it_was(words: str) -> None:
    found = ET.fromstring(element("text", words, data_name=words).text)  # noqa: S314  # our own
    assert (found.text or "") == words
    assert found.get("data-name") == words


@pytest.mark.parametrize(
    ("value", "text"),
    [(0, "0"), (-0.001, "0"), (1.005, "1"), (2.5, "2.5"), (-3.456, "-3.46"), (10, "10")],
)
def test_numbers_have_at_most_two_decimals(value: float, text: str) -> None:
    assert number(value) == text


@given(st.floats(min_value=-10_000, max_value=10_000))
def test_numbers_stay_within_half_a_hundredth(value: float) -> None:
    assert abs(float(number(value)) - value) <= 0.005 + 1e-9


def test_a_path_keeps_letters_and_rounds_numbers() -> None:
    assert path("M", 1, 2.3456, "H", 7) == "M 1 2.35 H 7"


def test_a_millimetre_is_the_css_millimetre() -> None:
    # CSS Values and Units 3 (W3C): 1in = 2.54cm = 96px.
    root = ET.fromstring(finish(Frame("strip", 25.4, 50.8, "t", "d")))  # noqa: S314  # our own
    assert (root.get("width"), root.get("height")) == ("96", "192")
    assert root.get("viewBox") == "0 0 25.4 50.8"


def test_title_and_description_come_first() -> None:
    root = ET.fromstring(finish(Frame("strip", 1, 1, "A & B", "<c>")))  # noqa: S314  # our own
    assert [child.text for child in root] == ["A & B", "<c>"]
