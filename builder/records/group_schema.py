"""What files of a class and of several weeks have in common: people, coaches, props, strands."""

from typing import Annotated

from pydantic import BeforeValidator, Field, WithJsonSchema

from builder.errors import InvalidValueError
from builder.reading.part import Part
from builder.reading.scalars import Text, Words

MOST_PEOPLE = 40
"""More are no group that a coach can look at (ours)."""
MOST_COACHES = 12
MINUTES = (10, 180)
"""The shortest and the longest class (ours)."""
MOST_PROPS = 500
MOST_ENTRIES = 200
"""The most that any list or mapping holds; what comes after isn't looked up (ours)."""


def name_coaches(value: object) -> object:
    """Give coaches that are only counted a name each; a single name is a list of one."""
    if isinstance(value, str):
        return [value]
    if not isinstance(value, int) or isinstance(value, bool):
        return value
    if not 1 <= value <= MOST_COACHES:
        raise InvalidValueError(
            f'"coaches" is {value}', f"give 1 to {MOST_COACHES}, or a list of names"
        )
    return ["coach"] if value == 1 else [f"coach {number}" for number in range(1, value + 1)]


Coaches = Annotated[
    list[Text],
    Field(min_length=1, max_length=MOST_COACHES),
    BeforeValidator(name_coaches),
    WithJsonSchema(
        {
            "description": "names of coaches, or how many there are; one if left out",
            "oneOf": [
                {"type": "integer", "minimum": 1, "maximum": MOST_COACHES},
                {"type": "string", "minLength": 1},
                {
                    "type": "array",
                    "items": {"type": "string", "minLength": 1},
                    "minItems": 1,
                    "maxItems": MOST_COACHES,
                },
            ],
        }
    ),
]


class GroupPart(Part):
    """A group with what it has at hand."""

    people: list[str] = Field(
        min_length=1, max_length=MOST_PEOPLE, description="ids of the people who come"
    )
    minutes: int = Field(ge=MINUTES[0], le=MINUTES[1], description="length of a class")
    coaches: Coaches = Field(default_factory=lambda: ["coach"])
    props: dict[str, Annotated[int, Field(ge=0, le=MOST_PROPS)]] = Field(
        default_factory=dict,
        max_length=MOST_ENTRIES,
        description="prop: how many are at hand; the course's class set if left out",
    )
    strands: list[str] | None = Field(
        None,
        min_length=1,
        max_length=MOST_ENTRIES,
        description="ids of the strands to work on; all if left out",
    )
    note: Words = ""
