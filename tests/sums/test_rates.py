"""Rates against published bands.

Slow breathing: Russo and others 2017, Breathe 13:298. Resting adults: Royal College of
Physicians, NEWS2, 2017.
"""

import pytest

from builder.course.tempo import Tempo
from builder.sums.rates import RateBand, classify_rate
from builder.sums.validity import OutsideValidityError


@pytest.mark.parametrize(
    ("rate", "band"),
    [
        (3.99, RateBand.UNDER_SLOW),
        (4, RateBand.SLOW),
        (10, RateBand.SLOW),
        (10.01, RateBand.UNDER_RESTING),
        (11.99, RateBand.UNDER_RESTING),
        (12, RateBand.RESTING),
        (20, RateBand.RESTING),
        (20.01, RateBand.BRISK),
    ],
)
def test_bands_change_at_the_published_bounds(rate: float, band: RateBand) -> None:
    classified = classify_rate(rate)
    assert (classified.per_minute, classified.band) == (rate, band)


@pytest.mark.parametrize(
    ("tempo", "per_minute", "band"),
    [
        ("4-4-4-4", 3.75, RateBand.UNDER_SLOW),
        ("4-1-4-1", 6, RateBand.SLOW),
        ("4-0-4-0", 7.5, RateBand.SLOW),
    ],
)
def test_the_usual_counts_fall_where_the_review_puts_them(
    tempo: str, per_minute: float, band: RateBand
) -> None:
    rate = classify_rate(60 / Tempo.parse(tempo).cycle_seconds)
    assert (rate.per_minute, rate.band) == (per_minute, band)


@pytest.mark.parametrize("rate", [0.24, 60.1, float("nan"), float("inf"), -6])
def test_no_band_is_given_outside_the_range(rate: float) -> None:
    with pytest.raises(OutsideValidityError, match=r"is outside 0\.25 to 60"):
        classify_rate(rate)
