"""The schema of translations: the keys of an original that hold words for people."""

from typing import ClassVar

from pydantic import Field

from builder.reading.part import Part
from builder.reading.scalars import Slug, Text, Title, Words
from builder.reading.schema import CuesPart, PaperName, ReviewPart, TitlePart


class LessonWordsHeader(Part):
    """The header of a lesson's translation."""

    has_short_lists: ClassVar[bool] = True
    title: Title
    summary: Text
    ready_when: list[Text] = Field(default_factory=list)
    stop_if: list[Text] = Field(default_factory=list)
    cues: CuesPart | None = None
    watch_for: list[Text] = Field(default_factory=list)
    allow: dict[str, Text] = Field(default_factory=dict, description="rule id: reason")
    reviewed: ReviewPart | None = None


class NoticeWordsHeader(Part):
    """The header of a notice's translation."""

    has_short_lists: ClassVar[bool] = True
    title: Title
    short: Text
    adapt: Words = ""
    reviewed: ReviewPart | None = None


class StrandWordsPart(Part):
    """A strand in other words."""

    title: Title
    summary: Text


class PositionWordsPart(Part):
    """A position in other words."""

    title: Title
    term: Words = ""


class PropWordsPart(Part):
    """A prop in other words."""

    title: Title
    stand_in: Words = ""


class MeasureWordsPart(Part):
    """A measure in other words."""

    title: Title
    unit: Text


class CourseWordsFile(Part):
    """The course file's words."""

    title: Title
    summary: Text
    caution: Text
    paper: PaperName | None = None
    papers: list[PaperName] | None = Field(
        None, min_length=1, description="sizes that its cards fit on; all of the site's if left out"
    )
    strands: dict[Slug, StrandWordsPart] = Field(default_factory=dict)
    positions: dict[Slug, PositionWordsPart] = Field(default_factory=dict)
    props: dict[Slug, PropWordsPart] = Field(default_factory=dict)
    conditions: dict[Slug, TitlePart] = Field(default_factory=dict)
    traits: dict[Slug, TitlePart] = Field(default_factory=dict)
    measures: dict[Slug, MeasureWordsPart] = Field(default_factory=dict)


KINDS = ("strands", "positions", "props", "conditions", "traits", "measures")
"""The parts of the course file that give words ids."""


class QuestionWordsPart(Part):
    """A question in other words."""

    text: Text
    answers: dict[Slug, Text] = Field(default_factory=dict)


class PlacementWordsFile(Part):
    """The placement table's words."""

    ask_first: list[Text]
    questions: dict[Slug, QuestionWordsPart]
    start: dict[Slug, list[Text]] = Field(
        description="strand: why each way into it leads where it does, in order"
    )
