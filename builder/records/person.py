"""A person of a studio, as the coach knows them. Nothing of it is ever published."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date

from builder.course.reference_body import LungReference


@dataclass(frozen=True, slots=True)
class Person:
    """Somebody who comes to classes."""

    id: str
    """Stands in file names and plans in place of the name: letters, digits, single hyphens."""
    name: str
    """What people call them."""
    birth_year: int | None = None
    lung_reference: LungReference | None = None
    """Which of the published lung equations to compare with; None where nobody asked."""
    height_cm: float | None = None
    weight_kg: float | None = None
    conditions: tuple[str, ...] = ()
    """Ids of conditions of the course, in the order in which they were written."""
    cleared: Mapping[str, date] = field(default_factory=dict)
    """Condition to the day on which a licensed clinician said that the person may take part."""
    hands_on: date | None = None
    """The day on which the person agreed to a coach's hands; None where they did not."""
    goal: str = ""
    language: str = ""
    """BCP 47; empty where it is the studio's own."""

    @property
    def uncleared(self) -> tuple[str, ...]:
        """Return the conditions for which no clinician's answer is on record."""
        return tuple(name for name in self.conditions if name not in self.cleared)
