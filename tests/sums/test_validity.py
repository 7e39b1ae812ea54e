"""Validity: both ends belong to a range, and a refusal names it."""

import pytest

from builder.sums.validity import OutsideValidityError, Validity

AGE = Validity("age", "years", 18, 70)


@pytest.mark.parametrize("age", [18, 70, 44.5])
def test_what_is_within_comes_back(age: float) -> None:
    assert AGE.check(age) == age


@pytest.mark.parametrize("age", [17.99, 70.01, float("nan"), float("-inf")])
def test_what_is_outside_is_refused_with_the_range(age: float) -> None:
    with pytest.raises(OutsideValidityError, match=r"age .* years is outside 18 to 70 years"):
        AGE.check(age)
