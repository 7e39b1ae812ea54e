"""A class put on a card: who does the same in a block stands together under its lesson."""

import re
from collections import Counter
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import replace
from string import ascii_lowercase

from builder.course.dose import Dose, Sides, TimedDose
from builder.language import Language
from builder.publishing.class_card.face import (
    BlockFace,
    ClassFace,
    GroupFace,
    NumberLine,
    PersonFace,
)
from builder.publishing.class_card.setting import ClassSetting
from builder.publishing.class_card.short_names import shorten_names
from builder.publishing.views.class_view import BlockView, ClassView, RecordView, TurnView
from builder.publishing.views.wording import word_dose

_MINUTE = 60
_NUMBER = re.compile(r"([0-9]+)")
_NARROW_PEOPLE = 3
"""A lesson of more people takes the whole breadth of a card."""


def face_class(view: ClassView, language: Language, setting: ClassSetting) -> ClassFace:
    """Put a class on a card; the setting says what gives way."""
    writer = _Writer(view, language, setting)
    blocks = tuple(writer.face(block, clock(block.start_seconds)) for block in view.blocks)
    spare = tuple(writer.face(block, "+") for block in view.spare)
    names = dict(view.people)
    has_figures = setting.figure_room is not None
    return ClassFace(
        view=view,
        private_mark=language.say("Coach only: people's data"),
        blocks=blocks,
        spare=spare[:1] if setting.is_tight else spare,
        spare_title=language.say("If there is time left:"),
        drop_title=language.say(
            "If time runs short, leave out first, of the blocks still to come:"
        ),
        props=list_props(view.props),
        measures=tuple(writer.measures.values()),
        looks=tuple(
            (block.start, looks)
            for block in blocks
            if (looks := _list_looks(block, has_names=setting.is_wide))
        ),
        cautions=tuple(
            (person, names[person], tuple(enumerate(sentences, start=1)))
            for person, sentences in view.cautions
        ),
        without_figures="" if has_figures else language.say("no room for figures: see the screen"),
    )


def clock(seconds: int) -> str:
    """Write a time since the class began as minutes and seconds."""
    return f"{seconds // _MINUTE}:{seconds % _MINUTE:02}"


def list_props(props: Iterable[tuple[str, int]]) -> str:
    """Name props with their numbers."""
    return ", ".join(
        f"{title}\N{NO-BREAK SPACE}×\N{NO-BREAK SPACE}{count}" for title, count in props
    )


class _Writer:
    """Puts blocks on the card, in their order."""

    def __init__(self, view: ClassView, language: Language, setting: ClassSetting) -> None:
        self.language, self.setting = language, setting
        self.names = dict(view.people) if setting.is_wide else shorten_names(view.people)
        self.cautions = dict(view.cautions)
        self.measures = _letter_measures(view.blocks)
        self.seen: set[str] = set()
        self.looked_at: set[str] = set()

    def face(self, block: BlockView, start: str) -> BlockFace:
        """Gather who does the same, in the order of the people, and set lessons side by side."""
        sets = _gather(sorted(block.turns, key=_order_person))
        rows = ([each] for each in sets) if self.setting.is_wide else _pair(sets)
        faces = tuple(tuple(self._group(turns, sets) for turns in row) for row in rows)
        return BlockFace(block, start, list_props(block.props), faces)

    def _group(self, turns: Sequence[TurnView], sets: Sequence[Sequence[TurnView]]) -> GroupFace:
        first = turns[0]
        rest = _find_usual_rest(turns)
        alike = (each[0] for each in sets if each[0].lesson_id == first.lesson_id)
        positions = {turn.position for turn in alike if not turn.instead}
        return GroupFace(
            title=first.title,
            pace=self.language.say_as("class card", "own pace") if first.keeps_own_pace else "",
            position=first.instead or (first.position if len(positions) > 1 else ""),
            dose=self._say_dose(_give_rest(first.dose, rest)),
            look_at=self._find_look(turns),
            figure=first.figure,
            lines=tuple(
                NumberLine(self.measures[record.id][0], record.has_sides)
                for record in first.records
                if record.id in self.measures
            ),
            people=tuple(self._person(turn, rest) for turn in turns),
        )

    def _find_look(self, turns: Sequence[TurnView]) -> str:
        """Say what to look at: always, or the first time, or the first close look."""
        lesson = turns[0].lesson_id
        is_first = lesson not in self.seen
        is_first_look = lesson not in self.looked_at and any(each.has_close_look for each in turns)
        self.seen.add(lesson)
        self.looked_at.update([lesson] * is_first_look)
        is_said = self.setting.is_wide or is_first_look or (is_first and not self.setting.is_terse)
        return turns[0].look_at if is_said else ""

    def _say_dose(self, dose: Dose | TimedDose) -> str:
        if self.setting.is_wide:
            return word_dose(self.language, dose)
        return _shorten_dose(self.language, dose)

    def _person(self, turn: TurnView, usual_rest: int) -> PersonFace:
        numbers = [self.cautions[turn.person_id].index(each) + 1 for each, _ in turn.pointers]
        return PersonFace(
            id=turn.person_id,
            name=self.names[turn.person_id],
            has_close_look=turn.has_close_look,
            marks=",".join(map(str, sorted(numbers))),
            caution_word=turn.short_words if self.setting.is_wide else "",
            side=turn.side_text,
            rest="" if turn.rest_seconds == usual_rest else self._say_rest(turn.rest_seconds),
        )

    def _say_rest(self, seconds: int) -> str:
        if self.setting.is_wide:
            return self.language.say("rest {seconds} s", seconds=seconds)
        return f"({self.language.say('{seconds} s', seconds=seconds)})"


def _gather(turns: Iterable[TurnView]) -> list[list[TurnView]]:
    """Put together whoever does the same: lesson, dose, position, pace and figure."""
    sets: list[list[TurnView]] = []
    for turn in turns:
        own = next((each for each in sets if _is_alike(each[0], turn)), None)
        if own is None:
            sets.append([turn])
        else:
            own.append(turn)
    return sets


def _is_alike(one: TurnView, other: TurnView) -> bool:
    return _describe_version(one) == _describe_version(other)


def _describe_version(turn: TurnView) -> tuple[object, ...]:
    dose = _give_rest(turn.dose, 0)
    return turn.lesson_id, dose, turn.position, turn.keeps_own_pace, turn.figure


def _pair(sets: Sequence[list[TurnView]]) -> Iterator[tuple[list[TurnView], ...]]:
    """Set lessons of few people side by side, those of the most first, so that rows are even."""
    by_size = sorted(sets, key=len, reverse=True)
    broad = [each for each in by_size if len(each) > _NARROW_PEOPLE]
    narrow = by_size[len(broad) :]
    if len(narrow) % 2:
        broad.append(narrow.pop(0))
    yield from ((each,) for each in broad)
    yield from zip(narrow[::2], narrow[1::2], strict=True)


def _list_looks(block: BlockFace, *, has_names: bool) -> str:
    people = [person for group in block.groups for person in group.people if person.has_close_look]
    named = (f"{each.id}\N{NO-BREAK SPACE}{each.name}" if has_names else each.id for each in people)
    return ", ".join(named)


def _order_person(turn: TurnView) -> tuple[str | int, ...]:
    """Put C2 before C10: words and numbers of an id in turn."""
    parts = _NUMBER.split(turn.person_id)
    return tuple(int(part) if index % 2 else part for index, part in enumerate(parts))


def _find_usual_rest(turns: Sequence[TurnView]) -> int:
    """Return the rest of the most people, of several the shortest."""
    counts = Counter(turn.rest_seconds for turn in turns)
    return min(counts, key=lambda seconds: (-counts[seconds], seconds))


def _give_rest(dose: Dose | TimedDose, seconds: int) -> Dose | TimedDose:
    return replace(dose, rest_seconds=seconds) if isinstance(dose, Dose) else dose


def _letter_measures(blocks: Iterable[BlockView]) -> Mapping[str, tuple[str, str]]:
    """Return the letter and the name of each measure that is noted; one alone needs no letter."""
    records = (record for block in blocks for turn in block.turns for record in turn.records)
    names = {record.id: _name_record(record) for record in records}
    letters = _list_letters(len(names)) if len(names) > 1 else [""]
    return {
        measure: (letter, name)
        for (measure, name), letter in zip(names.items(), letters, strict=False)
    }


def _list_letters(count: int) -> list[str]:
    """Return a, b and so on; after z come numbers."""
    return [*ascii_lowercase, *map(str, range(len(ascii_lowercase) + 1, count + 1))][:count]


def _name_record(record: RecordView) -> str:
    """Name a measure with its unit where that says more than the title, or with its words."""
    if record.words or record.unit in record.title:
        return f"{record.title}: {record.unit}" if record.words else record.title
    return f"{record.title} ({record.unit})"


def _shorten_dose(language: Language, dose: Dose | TimedDose) -> str:
    """Write a dose in figures as far as that goes: 2 × 6, 30 s."""
    if isinstance(dose, TimedDose):
        return language.say("{minutes} min", minutes=dose.minutes)
    words = f"{dose.sets}\N{NO-BREAK SPACE}×\N{NO-BREAK SPACE}{dose.breaths}"
    if dose.sides is Sides.EACH:
        words = language.say("{dose} each side", dose=words)
    if dose.rounds == 1 or not dose.rest_seconds:
        return words
    return language.say("{dose}, {seconds} s", dose=words, seconds=dose.rest_seconds)
