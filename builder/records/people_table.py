"""Rows of people.csv to people."""

import re
from datetime import date

from builder import rules
from builder.course.reference_body import LungReference
from builder.records.known import Known
from builder.records.person import Person
from builder.records.row_check import RowCheck

LONGEST_PERSON_ID = 40
HEIGHT_CM = (50, 250)
WEIGHT_KG = (20, 400)
"""What a grown-up can be; the sums refuse what their equations weren't made for (ours)."""
_ADULT_YEARS = 18
_FIRST_BIRTH_YEAR = 1900
_LONGEST_TEXT = 500
_ID = re.compile(r"[A-Za-z0-9]+(?:-[A-Za-z0-9]+)*")
_RESERVED = re.compile(r"con|prn|aux|nul|com[0-9]|lpt[0-9]", re.IGNORECASE)
"""Names that no file may have on Windows; ids stand in file names."""
_LANGUAGE = re.compile(r"[A-Za-z]{2,8}(-[A-Za-z0-9]{1,8})*")
_CLEARED = re.compile(r"(\S+)\s+(\S+)")


def read_person(check: RowCheck, known: Known) -> Person | None:
    """Read a person; None where something is wrong, so that no caution gets lost by half."""
    person_id = check.require("id")
    if person_id:
        _refuse_unfit_id(check, person_id)
    name = check.require("display name")
    birth_year = _read_birth_year(check, known.today)
    sex = check.text("sex for lung reference")
    sex = check.choose("sex for lung reference", list(LungReference)) or "" if sex else ""
    height = check.read_number("height cm", HEIGHT_CM)
    weight = check.read_number("weight kg", WEIGHT_KG)
    conditions = _read_conditions(check, known)
    cleared = _read_cleared(check, known)
    hands_on = check.text("hands on")
    consent = check.parse_day("hands on", hands_on, known.today) if hands_on else None
    _refuse_long(check, "display name", "goal")
    language = _read_language(check)
    if check.has_faults:
        return None
    return Person(
        id=person_id,
        name=name,
        birth_year=birth_year,
        lung_reference=LungReference(sex) if sex else None,
        height_cm=height,
        weight_kg=weight,
        conditions=conditions,
        cleared=cleared,
        hands_on=consent,
        goal=check.text("goal"),
        language=language,
    )


def _refuse_unfit_id(check: RowCheck, person_id: str) -> None:
    if not _ID.fullmatch(person_id) or len(person_id) > LONGEST_PERSON_ID:
        cure = f"use letters a to z, digits and single hyphens, {LONGEST_PERSON_ID} at most"
        check.refuse("id", 'what stands under "id" is no id', cure)
    elif _RESERVED.fullmatch(person_id):
        fact = f'"{person_id}" can\'t be a file name on every computer'
        check.refuse("id", fact, "give another id")


def _read_birth_year(check: RowCheck, today: date) -> int | None:
    year = check.read_number("birth year", (_FIRST_BIRTH_YEAR, today.year), is_whole=True)
    if year is not None and today.year - year <= _ADULT_YEARS:
        fact = f"born in {year:.0f}, this person is or may be under {_ADULT_YEARS}"
        cure = "ask those who care for them and a clinician: the course is for adults"
        check.refuse("birth year", fact, cure, rules.NOT_AN_ADULT)
    return None if year is None else int(year)


def _read_conditions(check: RowCheck, known: Known) -> tuple[str, ...]:
    names = _split(check.text("conditions"))
    conditions = known.course.vocabulary.conditions
    for name in names:
        if name not in conditions:
            check.refuse_unlisted("conditions", name, conditions)
    return tuple(dict.fromkeys(names))


def _read_cleared(check: RowCheck, known: Known) -> dict[str, date]:
    """Read for which conditions a clinician gave an answer, and when."""
    cleared: dict[str, date] = {}
    for entry in _split(check.text("cleared")):
        parts = _CLEARED.fullmatch(entry)
        if parts is None:
            cure = "write condition and day, such as pregnancy 2026-09-14, with ; between several"
            check.refuse("cleared", f'"{entry}" is no condition with a day', cure)
            continue
        name, text = parts.groups()
        if name not in known.course.vocabulary.conditions:
            check.refuse_unlisted("cleared", name, known.course.vocabulary.conditions)
        day = check.parse_day("cleared", text, known.today)
        if day:
            cleared[name] = max(day, cleared.get(name, day))
    return cleared


def _read_language(check: RowCheck) -> str:
    tag = check.text("language")
    if tag and not _LANGUAGE.fullmatch(tag):
        check.refuse("language", f'"{tag}" is no language tag', "write one such as en-GB or es")
    return tag


def _refuse_long(check: RowCheck, *columns: str) -> None:
    for column in columns:
        if len(check.text(column)) > _LONGEST_TEXT:
            fact = f'the cell under "{column}" is longer than {_LONGEST_TEXT} characters'
            check.refuse(column, fact, "shorten it")


def _split(text: str) -> list[str]:
    return [part.strip() for part in text.split(";") if part.strip()]
