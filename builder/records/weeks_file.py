"""Files for a course of several weeks, ``courses/<date>-<name>.yml``."""

from datetime import date
from typing import Literal

from pydantic import Field

from builder import rules
from builder.findings import Finding, Place
from builder.reading.known import HeaderCheck
from builder.reading.scalars import Day
from builder.reading.validation import read_validated
from builder.records.dated_name import DatedName, read_dated_name
from builder.records.group_check import (
    check_group,
    list_texts,
    refuse_doubled,
)
from builder.records.group_schema import MOST_ENTRIES, GroupPart
from builder.records.known import Known
from builder.records.weeks_order import Weekday, WeeksOrder, list_class_days

MOST_WEEKS = 26


class WeeksFile(GroupPart):
    """A file for a course of several weeks."""

    weeks: int = Field(ge=1, le=MOST_WEEKS)
    weekdays: list[Literal["mon", "tue", "wed", "thu", "fri", "sat", "sun"]] = Field(
        min_length=1, max_length=5, description="days of the week on which there is a class"
    )
    aim: list[str] = Field(
        min_length=1,
        max_length=MOST_ENTRIES,
        description="ids of the lessons that the group wants to reach",
    )
    retest: int = Field(2, ge=0, le=MOST_WEEKS, description="every how many weeks; 0 for none")
    holidays: list[Day] = Field(
        default_factory=list, max_length=MOST_ENTRIES, description="days without a class"
    )


def read_weeks(text: str, path: str, known: Known) -> tuple[WeeksOrder | None, list[Finding]]:
    """Read a file for several weeks; None with all findings where any part of it is wrong.

    Nobody is looked up, and nothing comes of it, where the file of people can't be read at all.
    """
    dated, findings = read_dated_name(path)
    tree, file, faults = read_validated(text, path, WeeksFile)
    findings += faults
    if tree is not None:
        check = HeaderCheck(tree, path, known.today)
        check_group(check, known)
        _check_aim(check, known)
        for key in ("weekdays", "holidays"):
            refuse_doubled(check, key, list_texts(tree, key))
        if file is not None and dated is not None:
            _check_days(check, file, dated.day)
        findings += check.findings
    if findings or file is None or dated is None or not known.has_people:
        return None, findings
    return _make(file, dated, path, known), []


def _check_aim(check: HeaderCheck, known: Known) -> None:
    """Note aims that are unknown, named twice, or of a strand that isn't worked on."""
    present = known.lesson_ids
    strands = [strand for _, strand in list_texts(check.tree, "strands")]
    seen: set[str] = set()
    for index, name in list_texts(check.tree, "aim"):
        if not check.known(("aim", index), name, present):
            continue
        lesson = known.course.by_id.get(present[name])
        if present[name] in seen:
            fact = f'"{name}" stands in "aim" again'
            check.refuse(rules.ID_DOUBLED, ("aim", index), fact, "keep one of the two")
        if lesson and strands and lesson.strand.id not in strands:
            fact = f'"{name}" is of the strand "{lesson.strand.id}", which isn\'t worked on'
            check.refuse(
                rules.VALUE_OUT_OF_RANGE,
                ("aim", index),
                fact,
                'add it to "strands", or aim elsewhere',
            )
        seen.add(present[name])


def _check_days(check: HeaderCheck, file: WeeksFile, first: date) -> None:
    """Note days that don't go together: the first one, the weekdays, holidays and retests."""
    weekdays = [Weekday(name) for name in file.weekdays]
    if Weekday.of(first) not in weekdays:
        fact = f'the first day, {first}, is a "{Weekday.of(first)}", on which there is no class'
        cure = "add it to the weekdays, or rename the file after the first class"
        check.refuse(rules.VALUE_OUT_OF_RANGE, ("weekdays",), fact, cure)
    days = list_class_days(first, file.weeks, weekdays)
    for index, holiday in enumerate(file.holidays):
        if holiday == first:
            fact = f"{holiday} is the first day"
            cure = "rename the file after the first class, or leave this out"
            check.refuse(rules.VALUE_OUT_OF_RANGE, ("holidays", index), fact, cure)
        elif days and not first < holiday <= days[-1]:
            fact = f"{holiday} is not between {first} and {days[-1]}, the last class"
            cure = "give a day between them, or leave it out"
            check.refuse(rules.VALUE_OUT_OF_RANGE, ("holidays", index), fact, cure)
    if "retest" in check.tree.values and file.retest > file.weeks:
        fact = f"a retest every {file.retest} weeks never comes in {file.weeks}"
        check.refuse(rules.VALUE_OUT_OF_RANGE, ("retest",), fact, "give fewer weeks, or 0 for none")


def _make(file: WeeksFile, dated: DatedName, path: str, known: Known) -> WeeksOrder:
    present = known.lesson_ids
    return WeeksOrder(
        first_day=dated.day,
        name=dated.name,
        weeks=file.weeks,
        weekdays=tuple(day for day in Weekday if day in file.weekdays),
        minutes=file.minutes,
        people=tuple(known.person_ids[person.casefold()] for person in file.people),
        aim=tuple(present[name] for name in file.aim),
        coaches=tuple(file.coaches),
        strands=tuple(file.strands or ()),
        retest_weeks=file.retest,
        holidays=tuple(sorted(file.holidays)),
        props=dict(file.props),
        note=file.note,
        place=Place(path),
    )
