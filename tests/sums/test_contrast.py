"""Contrast against values that follow from WCAG 2.2's own definitions."""

import pytest

from builder.errors import InvalidValueError
from builder.sums.contrast import LEAST_FOR_TEXT, contrast_ratio, relative_luminance


@pytest.mark.parametrize(
    ("first", "second", "published"),
    [
        # W3C, WCAG 2.2, "contrast ratio": ratios range from 1 to 21.
        ("#000000", "#ffffff", 21.0),
        ("#ffffff", "#ffffff", 1.0),
        # The grey pair on either side of the limit that accessibility teaching quotes
        # (worked with the formula of WCAG 2.2, "relative luminance").
        ("#767676", "#ffffff", 4.542),
        ("#777777", "#ffffff", 4.478),
        ("#0000ff", "#ffffff", 8.592),
        ("#ff0000", "#ffffff", 3.998),
    ],
)
def test_contrast_agrees_with_published_pairs(first: str, second: str, published: float) -> None:
    assert contrast_ratio(first, second) == pytest.approx(published, abs=0.001)


def test_order_of_colours_does_not_matter() -> None:
    assert contrast_ratio("#1f5e5b", "#fbfaf6") == contrast_ratio("#fbfaf6", "#1f5e5b")


def test_the_limit_parts_the_two_greys() -> None:
    # WCAG 2.2, 1.4.3 Contrast (Minimum): 4.5:1.
    assert (
        contrast_ratio("#777777", "#ffffff") < LEAST_FOR_TEXT < contrast_ratio("#767676", "#ffffff")
    )


def test_the_darkest_colours_grow_in_a_straight_line() -> None:
    """WCAG 2.2, "relative luminance": up to 0.04045 of full, a channel is divided by 12.92."""
    assert relative_luminance("#0a0a0a") == pytest.approx(10 / 255 / 12.92, rel=1e-9)


def test_green_weighs_most() -> None:
    assert relative_luminance("#00ff00") == pytest.approx(0.7152)


@pytest.mark.parametrize("wrong", ["", "#fff", "1f5e5b", "#1f5e5g", "#1f5e5b0", "red"])
def test_a_word_that_is_no_colour_is_refused(wrong: str) -> None:
    with pytest.raises(InvalidValueError, match="is no colour") as refused:
        contrast_ratio(wrong, "#ffffff")
    assert refused.value.cure.startswith("give #rrggbb")
