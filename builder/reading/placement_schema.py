"""The schema of the placement table."""

from typing import Annotated

from pydantic import Field

from builder.reading.part import Part
from builder.reading.scalars import Slug, Text

Seconds = Annotated[float, Field(ge=0, le=300)]


class SecondsPart(Part):
    """Bounds of a timed answer."""

    least: Seconds | None = None
    under: Seconds | None = None


class QuestionPart(Part):
    """One question."""

    id: Slug
    text: Text
    lesson: str = Field("", description="the lesson that tells how to look")
    answers: dict[Slug, Text] = Field(default_factory=dict)
    timed: bool = Field(default=False, description="answered by a stopwatch, in seconds")
    measure: str = Field("", description="its newest result in the lesson answers for a person")
    words: dict[Text, Slug] = Field(
        default_factory=dict, description="word of the measure: answer; left out where both agree"
    )
    conditions: dict[Slug, list[Slug]] = Field(
        default_factory=dict, description="answer: conditions that give it, most careful first"
    )
    ready: dict[Slug, str] = Field(
        default_factory=dict, description="answer: lesson that its people are ready in"
    )
    otherwise: str = Field("", description="the answer where records tell nothing")
    bars: dict[Slug, list[Slug]] = Field(
        default_factory=dict, description="answer: traits of lessons that its people leave out"
    )


class WayPart(Part):
    """Where somebody starts whose answers fit."""

    when: dict[Slug, list[Slug] | SecondsPart] = Field(
        default_factory=dict, description="question id: answers that fit; none fits everybody"
    )
    lesson: str = Field("", description="empty where the strand has to wait")
    why: Text


class StrandStartPart(Part):
    """The ways into one strand."""

    strand: Slug
    ways: list[WayPart] = Field(min_length=1)


class PlacementFile(Part):
    """The whole file."""

    ask_first: list[Text] = Field(min_length=1)
    questions: list[QuestionPart] = Field(min_length=1)
    start: list[StrandStartPart] = Field(min_length=1)
