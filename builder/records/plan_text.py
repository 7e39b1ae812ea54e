"""Class plans as the text of a plan file, with what a coach needs to know to change it."""

import json
import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field

from builder.records.plan import OWN_PACE, ClassPlan, PlannedBlock, Turn

_PLAIN = re.compile(r"[A-Za-z][A-Za-z0-9]*(-[A-Za-z0-9]+)*")
_TAKEN = frozenset({"true", "false", "null", "yes", "no", "on", "off", "y", "n"})
"""Bare words that are no text to some reader of YAML."""


@dataclass(frozen=True, slots=True)
class PlanNotes:
    """What a plan file tells a coach beside the plan itself."""

    lesson_titles: Mapping[str, str] = field(default_factory=dict)
    family_titles: Mapping[str, str] = field(default_factory=dict)
    """Those that may be chosen, in their order."""
    block_minutes: tuple[float, ...] = ()
    """Block by block."""
    class_people: tuple[str, ...] | None = None
    """Who is in the class file; None where the plan has just the same people."""


def write_plan(plan: ClassPlan, notes: PlanNotes | None = None) -> str:
    """Return the text of a plan file; ``read_plan`` makes an equal plan of it."""
    return "\n".join((*_write(plan, notes or PlanNotes()), ""))


def _write(plan: ClassPlan, notes: PlanNotes) -> Iterator[str]:
    yield f"# The plan of the class {_fold(plan.class_title)}. Change it as you like."
    yield f"# count: inhale-hold-exhale-hold in seconds, or {OWN_PACE}; one for all in a block."
    yield f"# position: one for all in a block{_list_families(notes)}."
    yield "# people: a lesson for everybody; {lesson: …, look: true} where a coach looks closely."
    yield f"# Then check it again: tempoleaf class classes/{_fold(plan.class_title)}.yml"
    yield from _write_door(plan, notes)
    yield "blocks:" if plan.blocks else "blocks: []"
    for index, block in enumerate(plan.blocks):
        minutes = notes.block_minutes[index : index + 1]
        yield ""
        yield "".join(
            (f"  # Block {index + 1}", *(f", {length:.3g} minutes" for length in minutes))
        )
        yield from _write_block(block, notes)


def _write_door(plan: ClassPlan, notes: PlanNotes) -> Iterator[str]:
    """Write who stays away from the class and who joins it, if anybody does."""
    asked = plan.people if notes.class_people is None else notes.class_people
    without = [quote_word(person) for person in asked if person not in plan.people]
    added = [quote_word(person) for person in plan.people if person not in asked]
    if without:
        yield f"without: [{', '.join(without)}]"
    if added:
        yield f"added: [{', '.join(added)}]"


def _list_families(notes: PlanNotes) -> str:
    families = (f"{name} ({_fold(title)})" for name, title in notes.family_titles.items())
    listed = ", ".join(families)
    return f": {listed}" if listed else ""


def _write_block(block: PlannedBlock, notes: PlanNotes) -> Iterator[str]:
    title = notes.family_titles.get(block.family, "")
    yield f"  - count: {block.count}"
    yield f"    position: {quote_word(block.family)}{_remark(title)}"
    yield "    people:"
    for turn in block.turns:
        title = notes.lesson_titles.get(turn.lesson_id, "")
        yield f"      {quote_word(turn.person_id)}: {_write_turn(turn)}{_remark(title)}"


def _write_turn(turn: Turn) -> str:
    lesson = quote_word(turn.lesson_id)
    return f"{{lesson: {lesson}, look: true}}" if turn.has_close_look else lesson


def quote_word(text: str) -> str:
    """Write a word as it is; in quotes, as JSON has them, where a reader might mistake it."""
    is_plain = _PLAIN.fullmatch(text) and text.lower() not in _TAKEN
    return text if is_plain else json.dumps(text, ensure_ascii=False)


def _remark(text: str) -> str:
    return f"  # {_fold(text)}" if text else ""


def _fold(text: str) -> str:
    """Keep a remark on its line: signs that can't be printed would end it, or hide in it."""
    return " ".join("".join(sign if sign.isprintable() else " " for sign in text).split())
