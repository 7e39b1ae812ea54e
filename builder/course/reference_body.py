"""Reference body: what the air check needs to know of a body."""

from dataclasses import dataclass
from enum import StrEnum

from builder.errors import InvalidValueError


class LungReference(StrEnum):
    """Which of the published lung equations a body is compared with."""

    FEMALE = "female"
    MALE = "male"


AGE_YEARS = (18, 80)
"""Grown-ups, up to the end of the lung equations of 2021."""
HEIGHT_CM = (140, 220)
WEIGHT_KG = (30, 250)


@dataclass(frozen=True, slots=True)
class ReferenceBody:
    """A body that the air check reckons with; InvalidValueError where no sum is made for it."""

    name: str
    lung_reference: LungReference
    age_years: float
    height_cm: float
    weight_kg: float

    def __post_init__(self) -> None:
        _check("age", "years", self.age_years, AGE_YEARS)
        _check("height", "cm", self.height_cm, HEIGHT_CM)
        _check("weight", "kg", self.weight_kg, WEIGHT_KG)

    def __str__(self) -> str:
        return (
            f"{self.name} ({self.lung_reference}, {self.age_years:g} years, "
            f"{self.height_cm:g} cm, {self.weight_kg:g} kg)"
        )


def _check(name: str, unit: str, value: float, ends: tuple[float, float]) -> None:
    least, most = ends
    if not least <= value <= most:
        raise InvalidValueError(
            f"a body's {name} of {value:.10g} {unit} is outside {least} to {most} {unit}",
            f"leave the body out, or give {least} to {most} {unit}",
        )


DEFAULT_BODIES = (
    ReferenceBody("taller adult", LungReference.MALE, 30, 175, 70),
    ReferenceBody("smaller adult", LungReference.FEMALE, 30, 165, 60),
    ReferenceBody("older adult", LungReference.FEMALE, 70, 160, 60),
)
"""For courses that name none, invented to span the people of a class (ours)."""
