"""Tiles of a class screen: each person's turn with what its buttons and fields are given."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from builder.course.dose import Dose
from builder.language import Language
from builder.publishing.class_screen.drills import (
    count_breaths,
    describe_drill,
    find_shared_dose,
)
from builder.publishing.class_screen.figures import ScreenFigure, find_figure
from builder.publishing.views.class_view import (
    BlockView,
    ClassView,
    NotThisView,
    RecordView,
    TurnView,
)
from builder.records.event_rows import MOST_BREATHS, MOST_REST_SECONDS, SANE_RANGES

_ANY_RANGE = (-100_000, 100_000)
_SIDES = ("left", "right")


@dataclass(frozen=True, slots=True)
class Field:
    """A measure of a tile."""

    record: RecordView
    sides: tuple[str, ...]
    """``left`` and ``right``, or one that is empty."""
    least: float
    most: float


@dataclass(frozen=True, slots=True)
class Tile:
    """One person's turn in one block."""

    turn: TurnView
    figure: ScreenFigure | None
    breaths: int | None
    """Breaths that the plan gives; None where minutes count."""
    rest: int | None
    fields: tuple[Field, ...]
    most_breaths: int = MOST_BREATHS
    most_rest: int = MOST_REST_SECONDS

    @property
    def key(self) -> str:
        """Return person and lesson, as the scripts name a turn."""
        return f"{self.turn.person_id}/{self.turn.lesson_id}"


@dataclass(frozen=True, slots=True)
class ScreenBlock:
    """A block with its tiles."""

    view: BlockView
    number: int
    """From 1; those to spare come after the others."""
    spare: int
    """From 1 among those to spare; 0 for a block of the plan."""
    tiles: tuple[Tile, ...]
    clock: Mapping[str, object]
    """What the script of the clock knows of it."""


@dataclass(frozen=True, slots=True)
class Other:
    """Somebody who may come as well."""

    person_id: str
    name: str
    blocks: tuple[tuple[TurnView, ...], ...]
    not_these: tuple[tuple[NotThisView, ...], ...]
    cautions: tuple[str, ...]
    tiles: tuple[Tile, ...]
    """One for each lesson that may be chosen."""


def list_turns(view: ClassView) -> tuple[TurnView, ...]:
    """Return every turn that the page holds."""
    planned = (turn for block in (*view.blocks, *view.spare) for turn in block.turns)
    chosen = (turn for other in view.others for turns in other.turns for turn in turns)
    return (*planned, *chosen)


def list_blocks(
    view: ClassView, figures: Iterable[ScreenFigure], language: Language
) -> tuple[ScreenBlock, ...]:
    """Return the blocks of a class, those to spare last."""
    drawn, planned = tuple(figures), len(view.blocks)
    every = (*view.blocks, *view.spare)
    return tuple(
        ScreenBlock(
            view=block,
            number=number,
            spare=max(0, number - planned),
            tiles=tuple(_make_tile(turn, drawn) for turn in block.turns),
            clock=_describe_clock(block, number, max(0, number - planned), language),
        )
        for number, block in enumerate(every, 1)
    )


def _describe_clock(
    block: BlockView, number: int, spare: int, language: Language
) -> Mapping[str, object]:
    """Return what the script of the clock knows of a block."""
    name = (
        language.say("extra block {number}", number=spare)
        if spare
        else language.say("block {number}", number=number)
    )
    return {
        "number": number,
        "spare": spare,
        "drill": describe_drill(block),
        "isShared": find_shared_dose(block) is not None,
        "rest": block.rest_seconds,
        "start": None if spare else block.start_seconds,
        "name": name,
        "words": ", ".join((name, block.family, block.count)),
    }


def list_others(view: ClassView, figures: Iterable[ScreenFigure]) -> tuple[Other, ...]:
    """Return who may come as well, with a tile for each lesson that may be chosen."""
    drawn = tuple(figures)
    found = []
    for other in view.others:
        by_lesson = {turn.lesson_id: turn for turns in other.turns for turn in turns}
        tiles = tuple(_make_tile(turn, drawn) for turn in by_lesson.values())
        found.append(
            Other(
                person_id=other.person_id,
                name=other.name,
                blocks=other.turns,
                not_these=other.not_these,
                cautions=other.cautions,
                tiles=tiles,
            )
        )
    return tuple(found)


def _make_tile(turn: TurnView, figures: tuple[ScreenFigure, ...]) -> Tile:
    return Tile(
        turn=turn,
        figure=find_figure(figures, turn.figure) if turn.figure else None,
        breaths=count_breaths(turn),
        rest=turn.rest_seconds if isinstance(turn.dose, Dose) else None,
        fields=tuple(_make_field(record) for record in turn.records),
    )


def _make_field(record: RecordView) -> Field:
    least, most = SANE_RANGES.get(record.unit, _ANY_RANGE)
    return Field(record, _SIDES if record.has_sides else ("",), least, most)
