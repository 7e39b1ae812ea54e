"""The studio's own file, ``studio.yml``: what it says in place of the course on private prints."""

from dataclasses import replace
from pathlib import Path
from zoneinfo import available_timezones

from pydantic import Field

from builder import rules
from builder.course.course import Course
from builder.course.language_tag import root_of
from builder.course.names import suggest
from builder.findings import Finding
from builder.reading.known import HeaderCheck
from builder.reading.part import Part
from builder.reading.scalars import COLOUR, LANGUAGE, Text, Words
from builder.reading.schema import PaperName
from builder.reading.validation import read_validated
from builder.records.group_schema import MOST_ENTRIES
from builder.records.inner_file import open_text, show_inner_path
from builder.records.studio import StudioSettings, take_from_course

STUDIO_FILE = "studio.yml"


class OwnColoursPart(Part):
    """Colours of the studio; those of the course where one is left out."""

    ink: str | None = Field(None, pattern=COLOUR)
    accent: str | None = Field(None, pattern=COLOUR)
    paper: str | None = Field(None, pattern=COLOUR)


class StudioFile(Part):
    """The studio's file; what is left out is as the course has it."""

    name: Text | None = None
    contact: Words | None = None
    colours: OwnColoursPart | None = None
    paper: PaperName | None = None
    language: str | None = Field(None, pattern=LANGUAGE)
    timezone: Text | None = Field(None, description="IANA name, such as Europe/Lisbon")
    public_names: list[Text] | None = Field(
        None,
        max_length=MOST_ENTRIES,
        description="names on record that the site may say, such as a coach's who comes to classes",
    )


def read_studio(
    text: str, path: str, course: Course
) -> tuple[StudioSettings | None, list[Finding]]:
    """Read the studio's file; None with all findings where any part of it is wrong."""
    if not _says_anything(text):
        return take_from_course(course), []
    tree, file, findings = read_validated(text, path, StudioFile)
    if tree is not None:
        check = HeaderCheck(tree, path, course.day)
        _check_language(check, course)
        _check_timezone(check)
        findings += check.findings
    if findings or file is None:
        return None, findings
    return _make(file, course), []


def read_studio_file(program: Path, course: Course) -> tuple[StudioSettings | None, list[Finding]]:
    """Read the studio's file of a program folder; without one the course's settings stand."""
    path = program / STUDIO_FILE
    if not path.exists():
        return take_from_course(course), []
    text, findings = open_text(program, path)
    if text is None:
        return None, findings
    return read_studio(text, show_inner_path(program, path), course)


def _says_anything(text: str) -> bool:
    lines = (line.strip() for line in text.splitlines())
    return any(line and not line.startswith("#") for line in lines)


def _check_language(check: HeaderCheck, course: Course) -> None:
    """Note a language that the course isn't there in; its country may differ."""
    language = check.tree.values.get("language")
    known = (course.settings.language, *course.settings.languages)
    if isinstance(language, str) and root_of(language) not in map(root_of, known):
        check.known(("language",), language, known)


def _check_timezone(check: HeaderCheck) -> None:
    """Note an unknown time zone; a machine without the database knows none and takes all."""
    zone, known = check.tree.values.get("timezone"), available_timezones()
    if not isinstance(zone, str) or not zone.strip() or not known or zone.strip() in known:
        return
    cure = suggest(zone, known) or "give an IANA name, such as Europe/Lisbon"
    fact = f'"{zone}" under "timezone" is unknown'
    check.refuse(rules.NAME_UNKNOWN, ("timezone",), fact, cure)


def _make(file: StudioFile, course: Course) -> StudioSettings:
    fallen_back = take_from_course(course)
    own = file.model_dump(exclude={"colours", "public_names"}, exclude_none=True)
    colours = file.colours.model_dump(exclude_none=True) if file.colours else {}
    return replace(fallen_back, **own, colours=replace(fallen_back.colours, **colours))
