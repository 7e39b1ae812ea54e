"""Plan files, ``plans/<date>-<name>.yml``: a class plan as a coach may have changed it by hand.

Whether such a plan can be taught is planning's to say; here it is read.
"""

import hashlib
from collections.abc import Iterator, Mapping
from dataclasses import replace
from itertools import islice
from pathlib import Path

from builder import rules
from builder.course.names import offer, suggest
from builder.findings import Finding, Place
from builder.reading.known import HeaderCheck
from builder.reading.validation import read_validated
from builder.reading.yaml_tree import Tree, Way, YamlTree
from builder.records.class_file import MOST_BLOCKS
from builder.records.class_order import ClassOrder
from builder.records.group_check import list_texts, refuse_stranger
from builder.records.group_schema import MOST_PEOPLE
from builder.records.inner_file import ENDING, open_text, show_inner_path
from builder.records.known import Known, show_person
from builder.records.plan import ClassPlan, PlannedBlock, Turn
from builder.records.plan_schema import BlockPart, PlanFile
from builder.records.plan_text import PlanNotes, write_plan
from builder.work.whole import write_whole, write_whole_bytes

PLANS = "plans"
EARLIER = "earlier"
"""The folder in it for plans that another has taken the place of."""
_DIGEST_SIGNS = 8


def find_plan_path(program: Path, order: ClassOrder) -> Path:
    """Return where the plan of a class lies in a program folder, whether it is there or not."""
    return program / PLANS / f"{order.title}{ENDING}"


def read_plan_file(
    program: Path, known: Known, order: ClassOrder
) -> tuple[ClassPlan | None, list[Finding]]:
    """Read the plan of a class; None without findings where there is no file."""
    path = find_plan_path(program, order)
    if not path.exists():
        return None, []
    text, findings = open_text(program, path)
    if text is None:
        return None, findings
    return read_plan(text, show_inner_path(program, path), known, order)


def keep_plan(path: Path, plan: ClassPlan, notes: PlanNotes) -> tuple[Path, Path | None]:
    """Write a plan to its file; return its path, and that of the plan that stood there before.

    A coach may have worked on what stood there, so it is kept, unless it says the same.
    """
    text = write_plan(plan, notes)
    path.parent.mkdir(exist_ok=True)
    before = path.read_bytes() if path.exists() else None
    earlier = None
    if before is not None and before != text.encode():
        digest = hashlib.sha256(before).hexdigest()[:_DIGEST_SIGNS]
        earlier = path.parent / EARLIER / f"{path.stem}-{digest}{ENDING}"
        earlier.parent.mkdir(exist_ok=True)
        write_whole_bytes(earlier, before)
    write_whole(path, text)
    return path, earlier


def read_plan(
    text: str, path: str, known: Known, order: ClassOrder
) -> tuple[ClassPlan | None, list[Finding]]:
    """Read the plan of a class; None with all findings where any part of it is wrong."""
    tree, file, findings = read_validated(text, path, PlanFile)
    if tree is not None:
        check = HeaderCheck(tree, path, known.today)
        order = _change_at_door(check, order, known)
        for index, block in _list_blocks(tree):
            _check_position(check, ("blocks", index, "position"), block.get("position"), known)
            _check_people(check, ("blocks", index, "people"), block.get("people"), order)
            _check_lessons(check, ("blocks", index, "people"), block.get("people"), known)
        findings += check.findings
    if findings or file is None:
        return None, findings
    blocks = tuple(_make_block(part, known.lesson_ids) for part in file.blocks)
    return ClassPlan(order.title, tuple(sorted(order.people)), blocks), []


def _change_at_door(check: HeaderCheck, order: ClassOrder, known: Known) -> ClassOrder:
    """Return the class with those who stay away left out, and those who join it."""
    people = list(order.people)
    for index, person in list_texts(check.tree, "without"):
        if person not in order.people:
            refuse_stranger(check, ("without", index), person, order.people)
        elif person in people:
            people.remove(person)
    for index, person in list_texts(check.tree, "added"):
        if person not in known.people:
            refuse_stranger(check, ("added", index), person, known.people)
        elif person not in people:
            people.append(person)
    return replace(order, people=tuple(people))


def _list_blocks(tree: YamlTree) -> Iterator[tuple[int, dict[str, Tree]]]:
    """Yield what of the text's own tree are blocks, sound or not, so that all names are told."""
    blocks = tree.values.get("blocks")
    for index, block in enumerate(blocks[:MOST_BLOCKS] if isinstance(blocks, list) else ()):
        if isinstance(block, dict):
            yield index, block


def _check_position(check: HeaderCheck, way: Way, family: Tree, known: Known) -> None:
    """Note a family that is unknown; a title, or one of its positions, tells which is meant."""
    words = known.course.vocabulary
    if isinstance(family, str) and family not in words.families:
        meant = {title: name for name, title in words.families.items()}
        meant |= {each.title: each.family for each in words.positions.values()}
        meant |= {each.id: each.family for each in words.positions.values()}
        _refuse_unknown(check, way, family, (words.families, meant))


def _check_people(check: HeaderCheck, way: Way, people: Tree, order: ClassOrder) -> None:
    """Note who is missing from a block, and who is not in the class."""
    if not isinstance(people, dict):
        return
    missing = [person for person in order.people if person not in people]
    for person in islice(people, MOST_PEOPLE):
        if person not in order.people:
            fact = f"{show_person(person)} is not in the class {order.title}"
            cure = suggest(person, missing) or "take the line out, or add them to the class file"
            place = Place(check.path, *check.tree.keys[(*way, person)])
            check.findings.append(rules.NAME_UNKNOWN.at(place, fact, cure))
    for person in missing:
        fact = f'"{person}" is missing from this block'
        check.refuse(rules.KEY_MISSING, way, fact, f'add "{person}: …" with a lesson')


def _check_lessons(check: HeaderCheck, way: Way, people: Tree, known: Known) -> None:
    """Note lessons that are unknown; a title tells which is meant."""
    meant = {lesson.title: lesson.id for lesson in known.course.lessons}
    turns = people.items() if isinstance(people, dict) else ()
    for person, turn in islice(turns, MOST_PEOPLE):
        place = (*way, person, "lesson") if isinstance(turn, dict) else (*way, person)
        lesson = turn.get("lesson") if isinstance(turn, dict) else turn
        if isinstance(lesson, str) and lesson not in known.lesson_ids:
            _refuse_unknown(check, place, lesson, (known.lesson_ids, meant))


def _refuse_unknown(
    check: HeaderCheck, way: Way, name: str, known: tuple[Mapping[str, str], Mapping[str, str]]
) -> None:
    """Note an unknown name with the one that is meant, by other words for it or by its letters."""
    names, meant = known
    other = {words.casefold(): each for words, each in meant.items()}.get(name.casefold())
    cure = f'write "{other}"' if other else suggest(name, names) or offer(names)
    check.refuse(rules.NAME_UNKNOWN, way, f'"{name}" is unknown', cure)


def _make_block(part: BlockPart, present: dict[str, str]) -> PlannedBlock:
    turns = (Turn(person, present[turn.lesson], turn.look) for person, turn in part.people.items())
    return PlannedBlock(
        part.count, part.position, tuple(sorted(turns, key=lambda turn: turn.person_id))
    )
