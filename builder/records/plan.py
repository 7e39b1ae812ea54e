"""A class plan: blocks of one count and one position family, and who does what in each."""

from dataclasses import dataclass

from builder.errors import InvalidValueError

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

    def __post_init__(self) -> None:
        for number, block in enumerate(self.blocks, 1):
            if tuple(turn.person_id for turn in block.turns) != self.people:
                raise InvalidValueError(
                    f"block {number} has not one turn for each person by id",
                    f"give one for each of {', '.join(self.people)}",
                )
