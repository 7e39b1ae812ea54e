"""A class plan, block by block: who does what at the same count. Coaches may change it by hand."""

from dataclasses import dataclass

from builder.errors import InvalidValueError

OWN_PACE = "own pace"
"""The count of a block in which everybody breathes at their own pace."""


@dataclass(frozen=True, slots=True)
class Turn:
    """What one person does in one block."""

    person_id: str
    lesson_id: str
    has_close_look: bool = False
    """Whether a coach looks closely at this person."""


@dataclass(frozen=True, slots=True)
class PlannedBlock:
    """A stretch of a class in which everybody keeps the same count."""

    count: str
    """A tempo such as ``4-1-4-1``, or ``OWN_PACE``."""
    family: str
    """Id of the family of positions."""
    turns: tuple[Turn, ...]
    """One for each person, by person id."""


@dataclass(frozen=True, slots=True)
class ClassPlan:
    """A whole class."""

    class_title: str
    """Day and name of the class, as its file has them."""
    people: tuple[str, ...]
    """Ids, sorted, whatever the order of the class file is, so that equal plans are equal."""
    blocks: tuple[PlannedBlock, ...]

    def __post_init__(self) -> None:
        expected = tuple(sorted(set(self.people)))
        if self.people != expected:
            raise InvalidValueError(
                "people are not each there once by id", f"give {', '.join(expected)}"
            )
        for number, block in enumerate(self.blocks, 1):
            if tuple(turn.person_id for turn in block.turns) != expected:
                raise InvalidValueError(
                    f"block {number} has not one turn for each person by id",
                    f"give one for each of {', '.join(expected)}",
                )
