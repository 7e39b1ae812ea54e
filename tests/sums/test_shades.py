import pytest

from builder.sums.contrast import contrast_ratio
from builder.sums.shades import darken_until_read, lighten_until_read

# WCAG 2.2 (W3C, 2023): 4.5 for text at level AA (1.4.3), 7 at level AAA (1.4.6).
NIGHT = "#151b1c"
PAPER = "#fbfaf6"


@pytest.mark.parametrize("colour", ["#1f5e5b", "#000000", "#7a0000", "#0000ff", "#808080"])
def test_any_accent_can_be_read_in_the_dark(colour: str) -> None:
    assert contrast_ratio(lighten_until_read(colour, NIGHT, 7), NIGHT) >= 7


@pytest.mark.parametrize("colour", ["#ffee00", "#ffffff", "#66ccff", "#808080"])
def test_any_accent_can_be_read_on_paper(colour: str) -> None:
    assert contrast_ratio(darken_until_read(colour, [PAPER, "#ffffff"], 4.5), PAPER) >= 4.5


def test_a_colour_that_can_be_read_stays_as_it_is() -> None:
    assert lighten_until_read("#ffee00", NIGHT, 4.5) == "#ffee00"
    assert darken_until_read("#1f5e5b", [PAPER], 4.5) == "#1f5e5b"
