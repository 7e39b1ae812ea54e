"""The studio's own file: what it says stands, and the course stands for the rest."""

from dataclasses import replace
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from builder.course.course import Colours, Course
from builder.records.studio import take_from_course
from builder.records.studio_file import read_studio, read_studio_file

PATH = "program/studio.yml"


@pytest.mark.parametrize("text", ["", "\n\n", "# nothing yet\n"])
def test_an_empty_file_leaves_all_to_the_course(small_course: Course, text: str) -> None:
    studio, findings = read_studio(text, PATH, small_course)
    assert findings == []
    assert studio == take_from_course(small_course)
    assert studio.name == "Small Studio"
    assert studio.timezone == ""


def test_what_the_file_says_stands_and_the_course_for_the_rest(small_course: Course) -> None:
    text = (
        "name: Saltmarsh Studio\ncontact: ''\ncolours: {accent: '#7a2f4f'}\n"
        "paper: a4\nlanguage: en-US\ntimezone: Europe/Lisbon\n"
    )
    studio, findings = read_studio(text, PATH, small_course)
    assert findings == []
    assert studio is not None
    assert (studio.name, studio.contact, studio.paper) == ("Saltmarsh Studio", "", "a4")
    assert studio.colours == replace(small_course.settings.colours, accent="#7a2f4f")
    assert (studio.language, studio.timezone) == ("en-US", "Europe/Lisbon")


def test_a_colour_left_out_is_the_courses_own_and_not_the_tools(small_course: Course) -> None:
    own = replace(
        small_course, settings=replace(small_course.settings, colours=Colours(ink="#000033"))
    )
    studio, _ = read_studio("colours: {accent: '#7a2f4f'}\n", PATH, own)
    assert studio is not None
    assert studio.colours.ink == "#000033"


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("timezone: Europe/Lisbom", ':1:11: H110 name-unknown: "Europe/Lisbom" under "timezone" '
         'is unknown; write "Europe/Lisbon" if that is meant.'),
        ("timezone: here", "give an IANA name, such as Europe/Lisbon"),
        ("timezone: ../../etc/passwd", 'under "timezone" is unknown'),
        ("timezone: 1", "not text"),
        ("language: fr", ':1:11: H110 name-unknown: "fr" under "language" is unknown'),
        ("language: english please", "which is no language tag"),
        ("paper: a3", '"paper" is "a3"'),
        ("colours: {ink: teal}", 'is "teal", which is no colour here'),
        ("colour: {}", 'write "colours" if that is meant'),
        ("name: ''", "write at least a word"),
        ("[a]", "there are no keys and values here"),
    ],
)  # fmt: skip
def test_every_fault_is_told_with_its_place(small_course: Course, text: str, says: str) -> None:
    studio, findings = read_studio(text, PATH, small_course)
    lines = [str(finding) for finding in findings]
    assert studio is None
    assert any(says in line for line in lines), lines
    assert all(line.startswith(f"{PATH}:1:") for line in lines)


def test_a_folder_without_the_file_has_the_courses_settings(
    small_course: Course, tmp_path: Path
) -> None:
    assert read_studio_file(tmp_path, small_course) == (take_from_course(small_course), [])


def test_a_file_that_is_no_text_is_a_finding(small_course: Course, tmp_path: Path) -> None:
    (tmp_path / "studio.yml").write_bytes(b"name: Caf\xe9\n")
    studio, (finding,) = read_studio_file(tmp_path, small_course)
    assert studio is None
    assert str(finding.place) == f"{tmp_path.name}/studio.yml:1:1"


@given(st.text(max_size=200))
def test_any_text_gives_findings_or_a_studio(small_course: Course, text: str) -> None:
    studio, findings = read_studio(text, PATH, small_course)
    assert (studio is None) == bool(findings)
