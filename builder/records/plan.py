"""A class plan: blocks of one count and one position family, and who does what in each."""

from dataclasses import dataclass

OWN_PACE = "own pace"
"""The count of a block in which nobody counts."""


@dataclass(frozen=True, slots=True)
class Turn:
    """What one person does in one block."""

    person_id: str
    lesson_id: str
    has_close_look: bool = False
    """True where a coach looks closely at this person."""


@dataclass(frozen=True, slots=True)
class PlannedBlock:
    """One block: everybody at the same time, each with their own version."""

    count: str
    """A tempo such as 4-1-4-1, or `OWN_PACE`."""
    family: str
    """The position family that all share."""
    turns: tuple[Turn, ...]
    """One for each person of the class, by person id."""


@dataclass(frozen=True, slots=True)
class ClassPlan:
    """A whole class, in the order in which it is taught."""

    class_title: str
    people: tuple[str, ...]
    """Ids, sorted."""
    blocks: tuple[PlannedBlock, ...]
