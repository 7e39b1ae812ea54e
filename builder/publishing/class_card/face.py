"""What stands on a class card: who does the same in a block stands together under its lesson."""

import re
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import accumulate

from builder.course.dose import Dose, Sides, TimedDose
from builder.language import Language
from builder.publishing.views.class_view import BlockView, ClassView, RecordView, TurnView
from builder.publishing.views.wording import word_dose

_MINUTE = 60
_NUMBER = re.compile(r"([0-9]+)")


Caution = tuple[str, str, tuple[tuple[int, str], ...]]
"""Id, name, and numbered sentences of one person for whom something is changed."""


@dataclass(frozen=True, slots=True)
class PersonFace:
    """One person under a lesson."""

    id: str
    name: str
    has_close_look: bool
    is_new: bool
    marks: str
    """Numbers of what the box of cautions says of this person; empty where nothing is changed."""
    caution_word: str
    """What is changed, in short."""
    side: str
    """Which side is first, and how the sets are shared out."""
    rest: str
    """This person's own rest between sets, where others in the group have another one."""


@dataclass(frozen=True, slots=True)
class GroupFace:
    """A lesson in a block, with those who do it."""

    lesson_id: str
    instead: str
    """That they do it in another position, as a group of their own; empty where in its own."""
    position: str
    """That position; who is in it, where they stand among others; empty where nobody is."""
    title: str
    pace: str
    """That they breathe at their own pace while others count; else empty."""
    dose: str
    short_dose: str
    look_at: str
    records: tuple[RecordView, ...]
    is_first: bool
    """Whether the lesson stands on the card for the first time, in this position."""
    is_first_look: bool
    """Whether a coach looks closely at somebody in it for the first time."""
    people: tuple[PersonFace, ...]


@dataclass(frozen=True, slots=True)
class BlockFace:
    """A block with its lessons."""

    view: BlockView
    start: str
    """Minutes and seconds since the class began; a plus where a block is spare."""
    props: str
    groups: tuple[GroupFace, ...]


@dataclass(frozen=True, slots=True)
class ClassFace:
    """Everything on a class card."""

    view: ClassView
    private_mark: str
    blocks: tuple[BlockFace, ...]
    spare: tuple[BlockFace, ...]
    spare_title: str
    drop_title: str
    props: str
    records: str
    """What is noted in the class, each measure once."""
    looks: tuple[tuple[str, str], ...]
    """When coaches look closely, and at whom."""
    cautions: tuple[Caution, ...]

    @property
    def caution_columns(self) -> tuple[tuple[Caution, ...], ...]:
        """Part the cautions into two columns, the first at least as long as the second."""
        lengths = [sum(len(words) for _, words in own) for _, _, own in self.cautions]
        sums = list(accumulate(lengths, initial=0))
        cut = next(number for number, length in enumerate(sums) if 2 * length >= sums[-1])
        return self.cautions[:cut], self.cautions[cut:]


def face_class(
    view: ClassView,
    language: Language,
    *,
    has_short_names: bool = False,
    has_figures: bool = True,
) -> ClassFace:
    """Put a class on a card; short names leave out what follows the first word of each.

    With figures, whoever does a lesson in another position stands apart, beside their own figure;
    without, they are named under the lesson.
    """
    short = _shorten(view.people) if has_short_names else {}
    writer = _Writer(view, language, short, has_figures=has_figures)
    blocks = tuple(writer.face(block, clock(block.start_seconds)) for block in view.blocks)
    names = dict(view.people)
    return ClassFace(
        view=view,
        private_mark=language.say("Coach only: people's data"),
        blocks=blocks,
        spare=tuple(writer.face(block, "+") for block in view.spare),
        spare_title=language.say("If there is time left:"),
        drop_title=language.say(
            "If time runs short, leave out first, of the blocks still to come:"
        ),
        props=list_props(view.props),
        records=_list_records(view.blocks),
        looks=tuple(
            (block.start, looks)
            for block in blocks
            if (looks := _list_looks(block, has_names=not has_short_names))
        ),
        cautions=tuple(
            (person, names[person], tuple(enumerate(sentences, start=1)))
            for person, sentences in view.cautions
        ),
    )


def clock(seconds: int) -> str:
    """Write a time since the class began as minutes and seconds."""
    return f"{seconds // _MINUTE}:{seconds % _MINUTE:02}"


def list_props(props: Iterable[tuple[str, int]]) -> str:
    """Name props with their numbers."""
    return ", ".join(
        f"{title}\N{NO-BREAK SPACE}×\N{NO-BREAK SPACE}{count}" for title, count in props
    )


def _list_looks(block: BlockFace, *, has_names: bool) -> str:
    people = [person for group in block.groups for person in group.people if person.has_close_look]
    named = (f"{each.id}\N{NO-BREAK SPACE}{each.name}" if has_names else each.id for each in people)
    return ", ".join(named)


def _shorten(people: Sequence[tuple[str, str]]) -> dict[str, str]:
    """Return first words of names; whoever shares theirs with somebody keeps the whole name."""
    firsts = {person: name.split()[0] for person, name in people}
    every = list(firsts.values())
    return {person: first for person, first in firsts.items() if every.count(first) == 1}


class _Writer:
    """Puts blocks on the card, in their order."""

    def __init__(
        self, view: ClassView, language: Language, short: Mapping[str, str], *, has_figures: bool
    ) -> None:
        self.language = language
        self.has_figures = has_figures
        self.names = {**dict(view.people), **short}
        self.cautions = dict(view.cautions)
        self.seen: set[tuple[str, str]] = set()
        self.looked_at: set[str] = set()

    def face(self, block: BlockView, start: str) -> BlockFace:
        """Gather who does the same, in the order of the people."""
        together: dict[tuple[str, str, Dose | TimedDose], list[TurnView]] = {}
        for turn in sorted(block.turns, key=_order_person):
            drawn = turn.instead if self.has_figures else ""
            alike = turn.lesson_id, drawn, _leave_out_rest(turn.dose)
            together.setdefault(alike, []).append(turn)
        groups = tuple(self._group(turns) for turns in together.values())
        return BlockFace(block, start, list_props(block.props), groups)

    def _group(self, turns: Sequence[TurnView]) -> GroupFace:
        first = turns[0]
        drawn = first.lesson_id, first.instead
        is_first = drawn not in self.seen
        is_first_look = first.lesson_id not in self.looked_at and any(
            turn.has_close_look for turn in turns
        )
        self.seen.add(drawn)
        self.looked_at.update([first.lesson_id] * is_first_look)
        has_own_rests = len({turn.rest_seconds for turn in turns}) > 1
        dose = _leave_out_rest(first.dose) if has_own_rests else first.dose
        return GroupFace(
            lesson_id=first.lesson_id,
            instead=first.instead,
            position=self._place(turns),
            title=first.title,
            pace=self.language.say_as("class card", "own pace") if first.keeps_own_pace else "",
            dose=word_dose(self.language, dose),
            short_dose=_shorten_dose(self.language, turns),
            look_at=first.look_at,
            records=first.records,
            is_first=is_first,
            is_first_look=is_first_look,
            people=tuple(self._person(turn, has_own_rest=has_own_rests) for turn in turns),
        )

    def _person(self, turn: TurnView, *, has_own_rest: bool) -> PersonFace:
        numbers = [self.cautions[turn.person_id].index(each) + 1 for each, _ in turn.pointers]
        return PersonFace(
            id=turn.person_id,
            name=self.names[turn.person_id],
            has_close_look=turn.has_close_look,
            is_new=turn.is_new,
            marks=",".join(map(str, sorted(numbers))),
            caution_word=turn.short_words,
            side=turn.side_text,
            rest=self._say_rest(turn.rest_seconds) if has_own_rest else "",
        )

    def _place(self, turns: Sequence[TurnView]) -> str:
        """Name other positions than the lesson's: alone where a figure shows who, else with ids."""
        moved: dict[str, list[str]] = {}
        for turn in turns:
            if turn.instead:
                moved.setdefault(turn.position, []).append(turn.person_id)
        if self.has_figures:
            return ", ".join(moved)
        return "; ".join(f"{place}: {', '.join(people)}" for place, people in moved.items())

    def _say_rest(self, seconds: int) -> str:
        return self.language.say("rest {seconds} s", seconds=seconds)


def _order_person(turn: TurnView) -> tuple[str | int, ...]:
    """Put C2 before C10: words and numbers of an id in turn."""
    parts = _NUMBER.split(turn.person_id)
    return tuple(int(part) if index % 2 else part for index, part in enumerate(parts))


def _leave_out_rest(dose: Dose | TimedDose) -> Dose | TimedDose:
    return replace(dose, rest_seconds=0) if isinstance(dose, Dose) else dose


def _list_records(blocks: Iterable[BlockView]) -> str:
    records = (record for block in blocks for turn in block.turns for record in turn.records)
    return "; ".join(dict.fromkeys(map(_name_record, records)))


def _name_record(record: RecordView) -> str:
    """Name a measure with its unit where that says more than the title, or with its words."""
    if record.words or record.unit in record.title:
        return f"{record.title}: {record.unit}" if record.words else record.title
    return f"{record.title} ({record.unit})"


def _shorten_dose(language: Language, turns: Sequence[TurnView]) -> str:
    """Write the dose of a lesson in figures as far as that goes: 2 × 6, 25–30 s."""
    dose = turns[0].dose
    if isinstance(dose, TimedDose):
        return language.say("{minutes} min", minutes=dose.minutes)
    words = f"{dose.sets}\N{NO-BREAK SPACE}×\N{NO-BREAK SPACE}{dose.breaths}"
    if dose.sides is Sides.EACH:
        words = language.say("{dose} each side", dose=words)
    rests = sorted({turn.rest_seconds for turn in turns})
    if dose.rounds == 1 or not rests[-1]:
        return words
    seconds = "\N{EN DASH}".join(map(str, dict.fromkeys((rests[0], rests[-1]))))
    return language.say("{dose}, {seconds} s", dose=words, seconds=seconds)
