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


@pytest.mark.parametrize("colour", ["#1f5e5b", "#7a0000", "#0000ff"])
def test_a_colour_is_lightened_by_the_same_share_of_each_channel(colour: str) -> None:
    before, after = (
        bytes.fromhex(each[1:]) for each in (colour, lighten_until_read(colour, NIGHT, 7))
    )
    shares = [
        (new - old) / (255 - old) for old, new in zip(before, after, strict=True) if old < 255
    ]
    assert min(shares) > 0
    assert shares == pytest.approx([shares[0]] * len(shares), abs=0.01)


@pytest.mark.parametrize("colour", ["#ffee00", "#66ccff", "#12ff34"])
def test_a_colour_is_darkened_by_the_same_share_of_each_channel(colour: str) -> None:
    after = bytes.fromhex(darken_until_read(colour, [PAPER], 4.5)[1:])
    shares = [new / old for old, new in zip(bytes.fromhex(colour[1:]), after, strict=True) if old]
    assert max(shares) < 1
    assert shares == pytest.approx([shares[0]] * len(shares), abs=0.03)


def test_a_colour_changes_no_more_than_it_must() -> None:
    assert contrast_ratio(lighten_until_read("#1f5e5b", NIGHT, 7), NIGHT) < 8
    assert contrast_ratio(darken_until_read("#66ccff", [PAPER], 4.5), PAPER) < 4.7


@pytest.mark.parametrize("colour", ["#808080", "#1f5e5b"])
def test_contrast_that_is_just_enough_is_enough(colour: str) -> None:
    assert lighten_until_read(colour, NIGHT, contrast_ratio(colour, NIGHT)) == colour
    assert darken_until_read(colour, [PAPER], contrast_ratio(colour, PAPER)) == colour


def test_where_no_shade_can_be_read_it_is_white_or_black() -> None:
    assert lighten_until_read("#1f5e5b", "#808080", 21) == "#ffffff"
    assert darken_until_read("#1f5e5b", ["#808080"], 21) == "#000000"


def test_a_darkened_colour_can_be_read_on_the_darkest_of_its_grounds() -> None:
    assert (
        contrast_ratio(darken_until_read("#66ccff", ["#ffffff", "#bbbbbb"], 4.5), "#bbbbbb") >= 4.5
    )
