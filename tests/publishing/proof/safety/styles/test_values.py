"""Lengths, colours and names in style sheets."""

import pytest

from builder.publishing.proof.safety.styles.lengths import Letter, read_length
from builder.publishing.proof.safety.styles.longhands import Names, list_longhands
from builder.publishing.proof.safety.styles.paints import Paint, compare_paints, read_paint

LETTER = Letter(em_px=20, root_px=16)


@pytest.mark.parametrize(
    ("text", "pixels"),
    [
        # W3C, CSS Values and Units 4, 6.2: an inch is 96 px, 72 pt, 6 pc, 2.54 cm.
        ("1in", 96),
        ("72pt", 96),
        ("6pc", 96),
        ("2.54cm", 96),
        ("25.4mm", 96),
        ("1.5em", 30),
        ("2rem", 32),
        ("0", 0),
        ("calc(1em + 2 * 3px)", 26),
        ("calc((10px - 4px) / 2)", 3),
        ("clamp(1rem, 3vw, 2rem)", 16),
        ("max(12px, 1vw)", 12),
    ],
)
def test_lengths_are_those_of_the_standard(text: str, pixels: float) -> None:
    assert read_length(text, LETTER) == pytest.approx(pixels)


@pytest.mark.parametrize(
    "text", ["12", "1quark", "calc(9px - 1vw)", "50%", "1px 2px", "", "var(--a)"]
)
def test_what_only_a_screen_could_tell_is_not_told(text: str) -> None:
    assert read_length(text, LETTER) is None


@pytest.mark.parametrize(
    ("text", "colour"),
    [
        # W3C, CSS Color 4, 4.1 and 6.1: named colours; 4.2.1: hex notation.
        ("rebeccapurple", "#663399"),
        ("#0f0", "#00ff00"),
        ("rgb(0 128 255 / 50%)", "#0080ff"),
        ("hsl(120deg 100% 25%)", "#008000"),
        ("color-mix(in srgb, #ff0000, #0000ff)", "#800080"),
        ("color-mix(in srgb, white 30%, black)", "#4c4c4c"),
    ],
)
def test_colours_are_those_of_the_standard(text: str, colour: str) -> None:
    found = read_paint(text)
    assert found is not None
    assert found.to_hex() == colour


def test_a_colour_lies_over_another_by_its_share() -> None:
    # W3C, Compositing and Blending 1, 5.1: co = cs * as + cb * ab * (1 - as).
    mixed = Paint(1, 1, 1, 0.25).over(Paint(0, 0, 0))
    assert mixed.red == pytest.approx(0.25)
    assert mixed.alpha == 1


def test_letters_of_one_colour_with_their_ground_have_no_contrast() -> None:
    assert compare_paints(Paint(0.2, 0.2, 0.2), Paint(0.2, 0.2, 0.2)) == 1


def test_names_stand_for_values_and_for_names() -> None:
    names = Names({"--a": "var(--b) solid", "--b": "1px"})
    assert names.put("var(--a) red") == "1px solid red"
    assert names.put("var(--none, 2px)") == "2px"
    assert names.put("var(--none)") is None


def test_a_name_that_stands_for_itself_has_no_value() -> None:
    assert Names({"--a": "var(--b)", "--b": "var(--a)"}).put("var(--a)") is None


@pytest.mark.parametrize(
    ("name", "value", "parts"),
    [
        ("margin", "1px 2px", {"margin-top": "1px", "margin-left": "2px", "margin-bottom": "1px"}),
        ("margin", "1px 2px 3px 4px", {"margin-left": "4px", "margin-bottom": "3px"}),
        ("inset", "0 auto", {"top": "0", "left": "auto"}),
        ("font", "italic 700 3px/1.5 serif", {"font-size": "3px", "line-height": "1.5"}),
        ("overflow", "visible hidden", {"overflow-y": "hidden"}),
        ("padding-inline", "1px 9px", {"padding-left": "1px", "padding-right": "9px"}),
        ("max-block-size", "0", {"max-height": "0"}),
        ("animation", "gone 1s", {"animation-name": "gone 1s"}),
        ("border-inline-start", "9px solid", {"border-width": "9px solid"}),
    ],
)
def test_properties_written_as_one_are_taken_apart(
    name: str, value: str, parts: dict[str, str]
) -> None:
    found = dict(list_longhands(name, value))
    assert parts.items() <= found.items()
