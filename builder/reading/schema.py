"""The schema of lesson, notice and course files; editors use it as JSON Schema."""

from typing import Annotated, Any, ClassVar, Literal

from pydantic import Field

from builder.course.reference_body import AGE_YEARS, HEIGHT_CM, WEIGHT_KG
from builder.course.vocabulary import EFFORT_MET
from builder.reading.figure_schema import FigurePart
from builder.reading.part import Part
from builder.reading.scalars import (
    COLOUR,
    LANGUAGE,
    Address,
    Day,
    Slug,
    TempoText,
    Text,
    Title,
    Words,
)

PaperName = Literal["a4", "a5", "a6", "letter", "half-letter", "index"]


class ReviewPart(Part):
    """Who looked a text over, and when."""

    by: Text
    on: Day


class WaiverPart(Part):
    """Why a notice is left out."""

    reason: Words
    by: Words
    on: Day


class DosePart(Part):
    """Sets of breaths, or minutes where no breaths are counted."""

    sets: int | None = Field(None, ge=1, le=10)
    breaths: int | None = Field(None, ge=1, le=60)
    rest: int = Field(0, ge=0, le=600, description="seconds between sets and sides")
    sides: Literal["together", "each", "alternate"] = "together"
    minutes: int | None = Field(None, ge=1, le=60)


class CuesPart(Part):
    """What to say on the in-breath and on the out-breath."""

    inhale: Text
    exhale: Text


class LessonHeader(Part):
    """The header of a lesson file."""

    has_short_lists: ClassVar[bool] = True
    id: Slug | None = None
    title: Title
    strand: Slug
    level: int = Field(
        ge=0, le=99, description="order inside the strand; equal ones are alternatives"
    )
    summary: Text
    position: Slug
    tempo: TempoText
    dose: DosePart
    effort: Slug
    range: Literal["none", "small", "half", "full"] | None = None
    builds_on: list[str] = Field(default_factory=list)
    easier: list[str] = Field(default_factory=list)
    harder: list[str] = Field(default_factory=list)
    props: dict[str, Annotated[int, Field(ge=1, le=20)]] = Field(default_factory=dict)
    moving: list[Literal["left-arm", "right-arm", "left-leg", "right-leg", "trunk"]] = Field(
        default_factory=list
    )
    at_once: int | None = Field(None, ge=1, le=4, description="limbs that move at the same time")
    traits: list[str] = Field(default_factory=list)
    ready_when: list[Text] = Field(default_factory=list)
    stop_if: list[Text] = Field(default_factory=list)
    cues: CuesPart | None = None
    watch_for: list[Text] = Field(default_factory=list)
    measures: list[str] = Field(default_factory=list)
    ladder: list[Annotated[float, Field(gt=0, le=120)]] = Field(
        default_factory=list, description="lengths of one breath in seconds, rung by rung"
    )
    waive: dict[str, WaiverPart] = Field(default_factory=dict)
    allow: dict[str, Text] = Field(default_factory=dict, description="rule id: reason")
    figure: FigurePart | None = None
    was: list[Slug] = Field(
        default_factory=list, description="former ids, so that what people kept still counts"
    )
    reviewed: ReviewPart | None = None


class SourcePart(Part):
    """Where a caution comes from."""

    title: Words = ""
    publisher: Words = ""
    year: int | None = Field(None, ge=1800, le=2200)
    common_practice: bool = False


class InsteadPart(Part):
    """Where a lesson is done instead."""

    position: Slug
    props: dict[str, Annotated[int, Field(ge=1, le=20)]] = Field(
        default_factory=dict, description="what one person needs there besides"
    )


class NoticeHeader(Part):
    """The header of a notice file."""

    has_short_lists: ClassVar[bool] = True
    id: Slug | None = None
    title: Title
    action: Literal["stop", "ask-first", "adapt", "note"]
    traits: list[str] = Field(default_factory=list)
    everywhere: bool = False
    conditions: list[str] = Field(default_factory=list)
    short: Text
    adapt: Words = ""
    instead: InsteadPart | None = Field(
        None, description="where the lesson is done instead, if adapt moves it"
    )
    sources: list[SourcePart] = Field(default_factory=list)
    reviewed: ReviewPart | None = None


class StudioPart(Part):
    """Who publishes the course."""

    name: Text
    contact: Words = ""


class ColoursPart(Part):
    """The studio's own colours."""

    ink: str = Field("#1d2b2a", pattern=COLOUR)
    accent: str = Field("#1f5e5b", pattern=COLOUR)
    paper: str = Field("#fbfaf6", pattern=COLOUR)


class StrandPart(Part):
    """A row of lessons."""

    id: Slug
    title: Title
    summary: Text
    aim: Literal["observe", "calm", "work"]
    minutes: int = Field(ge=1, le=120, description="the longest that one lesson may take")
    days_a_week: int | None = Field(None, ge=1, le=7)


class PositionPart(Part):
    """How the body lies, sits or stands."""

    title: Title
    term: Words = ""
    rank: int = Field(ge=0, le=9)
    traits: list[str] = Field(default_factory=list)
    floor: bool = False
    balance: int = Field(0, ge=0, le=3)
    pose: str = Field("", description="the base pose of this position's figures")
    family: Slug | None = Field(None, description="its family of positions; its own if left out")


class PropPart(Part):
    """A thing to use."""

    title: Title
    stand_in: Words = ""
    load: int = Field(0, ge=0, le=3)
    traits: list[str] = Field(default_factory=list)
    class_set: int | None = Field(None, ge=0, le=500)
    floor: bool = Field(False, description="there to lie or kneel on, and of no use off the floor")


class EffortPart(Part):
    """How hard a drill is."""

    met: float = Field(ge=EFFORT_MET[0], le=EFFORT_MET[1])
    edition: Text
    code: Words = ""
    rank: int = Field(0, ge=0, le=4)


class TitlePart(Part):
    """A word with its title."""

    title: Title


class TraitPart(Part):
    """A trait of the course's own."""

    title: Title
    needs_notice: bool = True


class MeasurePart(Part):
    """What can be recorded."""

    title: Title
    unit: Text
    sides: bool = False
    better: Literal["more", "less", "none"] | None = Field(
        None, description="which way it goes as people get on; more if left out, none for words"
    )


class BodyPart(Part):
    """A body that the air check reckons with."""

    name: Text
    sex: Literal["female", "male"] = Field(description="for the published lung equations")
    age: int = Field(ge=AGE_YEARS[0], le=AGE_YEARS[1])
    height_cm: float = Field(ge=HEIGHT_CM[0], le=HEIGHT_CM[1])
    weight_kg: float = Field(ge=WEIGHT_KG[0], le=WEIGHT_KG[1])


class LooserLimit(Part):
    """A limit that allows more than the tool's own, with the reason."""

    value: float = Field(gt=0)
    reason: Text


class LanguagePart(Part):
    """What of the course is there in another language."""

    strands: list[Slug] | None = Field(None, min_length=1, description="all of them if left out")
    pages: list[Text] | None = Field(
        None, description="files of the content folder, such as safety.md; all if left out"
    )


class CourseHeader(Part):
    """The course file."""

    title: Title
    summary: Text
    language: str = Field(pattern=LANGUAGE)
    languages: dict[Annotated[str, Field(pattern=LANGUAGE)], LanguagePart] = Field(
        default_factory=dict, description="other languages of the course"
    )
    paper: PaperName = "a5"
    archive: bool = Field(False, description="cards and packs as PDF/A-2a, to keep for decades")
    address: Address = ""
    trust: Literal["trusted", "untrusted"] = Field(
        "trusted", description="untrusted where people wrote it whom the studio doesn't know"
    )
    studio: StudioPart
    colours: ColoursPart = Field(default_factory=lambda: ColoursPart.model_validate({}))
    caution: Text
    strands: list[StrandPart] = Field(min_length=1)
    notices: list[Slug] | None = Field(
        None, description="ids of the notices that must be there, so that a lost one is missed"
    )
    families: dict[Slug, TitlePart] = Field(
        default_factory=dict,
        description="positions among which a class moves without a stop, from least to most asking",
    )
    positions: dict[Slug, PositionPart] = Field(min_length=1)
    props: dict[Slug, PropPart] = Field(default_factory=dict)
    efforts: dict[Slug, EffortPart] = Field(min_length=1)
    conditions: dict[Slug, TitlePart] = Field(default_factory=dict)
    traits: dict[Slug, TraitPart] = Field(default_factory=dict)
    reference_bodies: list[BodyPart] = Field(
        default_factory=list, description="for the air check; three of the tool's own if left out"
    )
    measures: dict[Slug, MeasurePart] = Field(default_factory=dict)
    limits: dict[str, Annotated[float, Field(gt=0)] | LooserLimit] = Field(default_factory=dict)


SCHEMAS: dict[str, type[Part]] = {
    "lesson": LessonHeader,
    "notice": NoticeHeader,
    "course": CourseHeader,
}


def write_json_schema(name: str) -> dict[str, Any]:
    """Return the JSON Schema (2020-12) of a lesson, notice or course header."""
    return describe_part(SCHEMAS[name])


def describe_part(part: type[Part]) -> dict[str, Any]:
    """Return the JSON Schema (2020-12) of any part."""
    schema = part.model_json_schema()
    return {"$schema": "https://json-schema.org/draft/2020-12/schema", **schema}
