"""Refusals: lessons that somebody may not do today, each with the ground."""

from dataclasses import dataclass
from enum import StrEnum

from builder.planning.class_plan.problem import Version
from builder.planning.permission import Barrier


class Ground(StrEnum):
    """Why a lesson is no choice for somebody."""

    NOT_READY = "not-ready"
    """What it builds on isn't shown yet."""
    TOO_MUCH = "too-much"
    """It was too much twice in a row, and an easier one is still to come."""
    BARRED = "barred"
    """A notice, the person's own hold or the air check forbids it."""
    REST_DAY = "rest-day"
    """Work was done the day before."""
    NOT_ASKED = "not-asked"
    """Its strand isn't among those of the class."""


@dataclass(frozen=True, slots=True)
class Refusal:
    """One lesson that one person may not do today."""

    person_id: str
    version: Version
    """As it would be, were it allowed."""
    ground: Ground
    missing: tuple[str, ...] = ()
    """Ids of the lessons that the person isn't ready in yet."""
    barriers: tuple[Barrier, ...] = ()
    """What bars it."""
