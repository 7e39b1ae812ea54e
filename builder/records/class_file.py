"""Class files, ``classes/<date>-<name>.yml``: who comes, for how long, with what at hand."""

from pydantic import Field

from builder.findings import Finding, Place
from builder.reading.known import HeaderCheck
from builder.reading.validation import read_validated
from builder.records.class_order import ClassOrder
from builder.records.dated_name import DatedName, read_dated_name
from builder.records.group_check import check_group
from builder.records.group_schema import GroupPart
from builder.records.known import Known

MOST_BLOCKS = 20


class ClassFile(GroupPart):
    """A class file."""

    blocks: int = Field(10, ge=1, le=MOST_BLOCKS, description="how many blocks at most")
    rest: int = Field(60, ge=0, le=300, description="seconds after a block of work")
    new: int = Field(2, ge=0, le=6, description="how many lessons may be new to one person")


def read_class(text: str, path: str, known: Known) -> tuple[ClassOrder | None, list[Finding]]:
    """Read a class file; None with all findings where any part of it is wrong.

    Nobody is looked up, and no class comes of it, where the file of people can't be read at all.
    """
    dated, findings = read_dated_name(path)
    tree, file, faults = read_validated(text, path, ClassFile)
    findings += faults
    if tree is not None:
        check = HeaderCheck(tree, path, known.today)
        check_group(check, known)
        findings += check.findings
    if findings or file is None or dated is None or not known.has_people:
        return None, findings
    return _make(file, dated, path, known), []


def _make(file: ClassFile, dated: DatedName, path: str, known: Known) -> ClassOrder:
    return ClassOrder(
        day=dated.day,
        name=dated.name,
        minutes=file.minutes,
        people=tuple(known.person_ids[person.casefold()] for person in file.people),
        coaches=tuple(file.coaches),
        strands=tuple(file.strands or ()),
        props=dict(file.props),
        most_blocks=file.blocks,
        rest_seconds=file.rest,
        most_new=file.new,
        note=file.note,
        place=Place(path),
    )
