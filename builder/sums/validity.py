"""Validity: what a published formula was made for, and a refusal of what it wasn't."""

import math
from dataclasses import dataclass


class OutsideValidityError(ValueError):
    """A number that a formula wasn't made for; its text names the range."""


@dataclass(frozen=True, slots=True)
class Validity:
    """The range of one input, in its unit, both ends included."""

    name: str
    unit: str
    least: float
    most: float

    def check(self, value: float) -> float:
        """Return a value within the range; else raise `OutsideValidityError`."""
        if math.isfinite(value) and self.least <= value <= self.most:
            return value
        text = f"{self.name} {value:.10g} {self.unit} is outside {self.least:g} to {self.most:g}"
        raise OutsideValidityError(f"{text} {self.unit}")
