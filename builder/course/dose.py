"""Dose: sets, breaths, rest and sides of a drill, or minutes where nothing is counted."""

from dataclasses import dataclass
from enum import StrEnum

from builder.errors import InvalidValueError


class Sides(StrEnum):
    """How a drill shares its breaths between left and right."""

    TOGETHER = "together"
    EACH = "each"
    """All sets on one side, then all on the other."""
    ALTERNATE = "alternate"
    """Left and right in turn inside a set."""


@dataclass(frozen=True, slots=True)
class Dose:
    """A counted dose: ``sets`` of ``breaths``, with rest between sets and sides."""

    sets: int
    breaths: int
    rest_seconds: int = 0
    sides: Sides = Sides.TOGETHER

    def __post_init__(self) -> None:
        for name, number, low, high in (
            ("sets", self.sets, 1, 10),
            ("breaths", self.breaths, 1, 60),
            ("rest", self.rest_seconds, 0, 600),
        ):
            if not low <= number <= high:
                raise InvalidValueError(
                    f"{name} of {number} is out of range", f"give {low} to {high}"
                )

    @property
    def rounds(self) -> int:
        """Return how many times a set is done, both sides counted."""
        return self.sets * (2 if self.sides is Sides.EACH else 1)


@dataclass(frozen=True, slots=True)
class TimedDose:
    """A dose of minutes, for a lesson in which no breaths are counted."""

    minutes: int

    def __post_init__(self) -> None:
        if not 1 <= self.minutes <= 60:
            raise InvalidValueError(f"minutes of {self.minutes} is out of range", "give 1 to 60")
