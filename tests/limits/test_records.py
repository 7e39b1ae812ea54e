"""Files of records that are too large, or that unpack to far more than they seem."""

from collections.abc import Iterable
from io import BytesIO
from pathlib import Path
from zipfile import ZIP_DEFLATED, ZipFile

import pytest
from openpyxl import Workbook

from builder.course.course import Course
from builder.input_limits import HINTS, SHEET_PARTS, SHEET_TAGS, TABLE_BYTES, TABLE_COLUMNS
from builder.reading.course_folder import read_course
from builder.records.record_folder import read_records
from builder.records.spreadsheet import read_spreadsheet
from builder.records.table_file import read_table
from tests.conftest import SMALL_COURSE

SHEET = "xl/worksheets/sheet1.xml"
SPACE = "http://schemas.openxmlformats.org/spreadsheetml/2006/main"
HEAD = f'<?xml version="1.0"?><worksheet xmlns="{SPACE}"><sheetData>'
FOOT = "</sheetData></worksheet>"
TEN = "".join(f'<!ENTITY a{n} "{f"&a{n - 1};" * 10}">' for n in range(1, 9))
LAUGHS = f'<?xml version="1.0"?><!DOCTYPE l [<!ENTITY a0 "{"a" * 10}">{TEN}]>'
MANY_CELLS = f"{HEAD}<row>{'<c><v>1</v></c>' * 2_100_000}</row>{FOOT}"
SHEETS = {
    "a cell far to the right": f'{HEAD}<row r="1"><c r="XFD1"><v>1</v></c></row>{FOOT}',
    "open tags": f"{HEAD}{'<a>' * 20_000}{FOOT}",
    "closed tags": f"{HEAD}{'<a>' * 20_000}{'</a>' * 20_000}{FOOT}",
    "entities": f'{LAUGHS}<worksheet xmlns="{SPACE}"><sheetData><row><c t="inlineStr"><is><t>'
    f"&a8;</t></is></c></row>{FOOT}",
    "an entity of a file": '<?xml version="1.0"?><!DOCTYPE l [<!ENTITY a SYSTEM '
    f'"file:///etc/passwd">]><worksheet xmlns="{SPACE}"><sheetData><row><c t="inlineStr"><is><t>'
    f"&a;</t></is></c></row>{FOOT}",
    "one endless cell": f'{HEAD}<row><c t="inlineStr"><is><t>{"a" * 30_000_000}</t></is></c></row>'
    f"{FOOT}",
}


def make_book(parts: Iterable[tuple[str, str]]) -> bytes:
    """Make a spreadsheet, with some parts of it as they are given."""
    plain, target, given = BytesIO(), BytesIO(), dict(parts)
    book = Workbook()
    book.active.append(["id", "name"])
    book.active.append(["P1", "Mina"])
    book.save(plain)
    with ZipFile(plain) as old, ZipFile(target, "w", ZIP_DEFLATED) as new:
        for name in old.namelist():
            new.writestr(name, given.pop(name, None) or old.read(name))
        for name, content in given.items():
            new.writestr(name, content)
    return target.getvalue()


@pytest.mark.parametrize("sheet", SHEETS.values(), ids=SHEETS)
def test_a_sheet_that_is_a_trap_is_told_and_never_an_error(sheet: str) -> None:
    table, findings = read_spreadsheet("people.xlsx", make_book([(SHEET, sheet)]), "people")
    assert all(finding.rule.id.startswith("K1") for finding in findings)
    assert findings or not table or not table.rows
    assert "root:" not in repr(table)


def test_the_tags_are_counted_before_anything_is_read() -> None:
    _, (found,) = read_spreadsheet("a.xlsx", make_book([(SHEET, MANY_CELLS)]), "a")
    assert found.fact.endswith(f"tags, more than {SHEET_TAGS.most}")


def test_so_are_the_parts() -> None:
    many = ((f"xl/media/{number}.png", "x") for number in range(SHEET_PARTS.most))
    _, (found,) = read_spreadsheet("a.xlsx", make_book(many), "a")
    assert found.fact.endswith(f"parts, more than {SHEET_PARTS.most}")


def test_a_table_has_so_many_columns_and_no_more(tmp_path: Path) -> None:
    path = tmp_path / "people.csv"
    path.write_text("id,name" + ",x" * TABLE_COLUMNS.most + "\n")
    table, (found,) = read_table(path, "people.csv")
    assert table is None
    assert found.fact == "the file has 202 columns, more than 200"


def test_a_large_table_is_not_read(tmp_path: Path) -> None:
    path = tmp_path / "people.csv"
    with path.open("wb") as file:
        file.truncate(1 << 40)
    _, (found,) = read_table(path, "people.csv")
    assert found.fact == f"the file has {1 << 40} bytes, more than {TABLE_BYTES.most}"


def test_rows_that_name_nobody_are_all_told_and_most_without_a_guess(tmp_path: Path) -> None:
    """A near name among a thousand is looked for in 10 ms: 200,000 rows would take an hour."""
    course = read_course(SMALL_COURSE).course
    assert isinstance(course, Course)
    people = (f"P{number},Somebody {number},none\n" for number in range(200))
    (tmp_path / "people.csv").write_text("id,name,conditions\n" + "".join(people))
    rows = (f"2026-10-01,P{n},plain-count,\n" for n in range(1000, 1000 + 3 * HINTS.most))
    (tmp_path / "attendance.csv").write_text("date,person,lesson,outcome\n" + "".join(rows))
    findings = read_records(tmp_path, course).findings
    found = [each for each in findings if each.place.path.endswith("attendance.csv")]
    unlisted = [each for each in found if each.rule.id == "K105"]
    assert len(unlisted) == 3 * HINTS.most
    guessed = [each for each in unlisted if each.cure.startswith("write ")]
    assert 0 < len(guessed) <= HINTS.most
