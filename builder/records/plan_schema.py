"""The schema of plan files, as a coach may write them by hand."""

from typing import Annotated

from pydantic import BeforeValidator, Field, WithJsonSchema

from builder.course.tempo import NATURAL, Tempo
from builder.errors import InvalidValueError
from builder.reading.part import Part
from builder.records.class_file import MOST_BLOCKS
from builder.records.group_schema import MOST_PEOPLE
from builder.records.plan import OWN_PACE


def read_count(value: object) -> object:
    """Turn a count's text into its one form: ``4-1-4-pause`` is ``4-1-4-1``."""
    if not isinstance(value, str):
        shown = {type(None): "empty", list: "a list", dict: "keys and values"}
        fact = f'"count" is {shown.get(type(value), value)}, not text'
        raise InvalidValueError(fact, f"give one such as 4-1-4-1, or {OWN_PACE}")
    said = " ".join(value.lower().split())
    return OWN_PACE if said in (OWN_PACE, NATURAL) else str(Tempo.parse(value))


def _read_turn(value: object) -> object:
    """Let a lesson stand for a turn without a close look."""
    if isinstance(value, str):
        return {"lesson": value}
    if isinstance(value, dict):
        return value
    raise InvalidValueError(
        "a person has no lesson here",
        "give one, such as C1: even-count, or C1: {lesson: even-count, look: true}",
    )


class TurnPart(Part):
    """What one person does."""

    lesson: str
    look: bool = Field(default=False, description="whether a coach looks closely")


Count = Annotated[
    str,
    BeforeValidator(read_count),
    WithJsonSchema(
        {
            "type": "string",
            "description": f"inhale-hold-exhale-hold in seconds, such as 4-1-4-1, or {OWN_PACE}",
        }
    ),
]
TurnOrLesson = Annotated[
    TurnPart,
    BeforeValidator(_read_turn),
    WithJsonSchema({"oneOf": [{"type": "string"}, TurnPart.model_json_schema()]}),
]


class BlockPart(Part):
    """A block."""

    count: Count
    position: str = Field(description="a family of positions")
    people: dict[str, TurnOrLesson] = Field(max_length=MOST_PEOPLE, description="person: lesson")


class PlanFile(Part):
    """A plan file."""

    without: list[str] = Field(
        default_factory=list, max_length=MOST_PEOPLE, description="who of the class stays away"
    )
    added: list[str] = Field(
        default_factory=list, max_length=MOST_PEOPLE, description="who joins the class"
    )
    blocks: list[BlockPart] = Field(min_length=1, max_length=MOST_BLOCKS)
