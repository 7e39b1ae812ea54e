"""Rows of one person go, and those of others stay to the letter."""

import re
from io import BytesIO
from pathlib import Path
from zipfile import ZipFile

import pytest
from openpyxl import Workbook, load_workbook
from openpyxl.chart import BarChart, Reference
from openpyxl.styles import Font

from builder.errors import BuilderError
from builder.records.forgetting import Change, list_changes, list_names, make_changes
from tests.records.conftest import WriteProgram

RESULTS = (
    "\ufeffdate;person;measure;value;note\r\n"
    '2026-11-01;p-01;hold;11;"long\r\nnote"\r\n'
    "\r\n"
    '2026-11-01;p-02;hold;12;"and ""this"""\r\n'
    "2026-11-02;P-01;hold;13;"
)
KEPT = "row,reason,person,measure\n3,no such measure,p-01,x\n4,no such measure,p-02,x\n"


def forget(folder: Path, person_id: str = "p-01") -> list[str]:
    changes = [each for each in list_changes(folder, person_id) if isinstance(each, Change)]
    make_changes(changes)
    return [change.path.relative_to(folder).as_posix() for change in changes]


def test_rows_of_others_stay_to_the_letter(write_program: WriteProgram) -> None:
    folder = write_program({"results.csv": RESULTS})
    assert forget(folder) == ["results.csv", "people.csv"]
    assert (folder / "results.csv").read_bytes().decode() == (
        '\ufeffdate;person;measure;value;note\r\n\r\n2026-11-01;p-02;hold;12;"and ""this"""\r\n'
    )
    assert "p-02,Bo Tern" in (folder / "people.csv").read_text()
    assert list_changes(folder, "p-01") == ()


def test_kept_rows_and_plans_lose_the_person(write_program: WriteProgram) -> None:
    folder = write_program()
    for path, text in {
        "not-recorded/a.csv": KEPT,
        "not-recorded/b.csv": KEPT.rsplit("4,", 1)[0],
        "plans/earlier/2026-11-01-a.yml": "blocks:\n- people:\n    p-01: a\n    p-02: b\n",
        "classes/2026-11-01-a.yml": "people: [p-01]\n",
        "courses/2026-11-01-a.yml": "people: [p-02]\n",
    }.items():
        (folder / path).parent.mkdir(parents=True, exist_ok=True)
        (folder / path).write_text(text)
    assert forget(folder) == [
        *("plans/earlier/2026-11-01-a.yml", "classes/2026-11-01-a.yml"),
        *("not-recorded/a.csv", "not-recorded/b.csv", "people.csv"),
    ]
    left = sorted(path.relative_to(folder).as_posix() for path in folder.rglob("*.*"))
    assert left == [
        *("courses/2026-11-01-a.yml", "not-recorded/a.csv", "people.csv"),
        "plans/earlier/2026-11-01-a.yml",
    ]


def test_an_id_that_two_people_have_is_refused(write_program: WriteProgram) -> None:
    folder = write_program({"people.csv": "id,name,conditions\np-01,Ada,\nP-01,Bo,\n"})
    with pytest.raises(BuilderError, match='"p-01" has 2 rows'):
        list_changes(folder, "p-01")


def test_a_name_that_another_bears_too_is_not_looked_for(write_program: WriteProgram) -> None:
    folder = write_program({"people.csv": "id,name,conditions\np-01,Ada,\np-02,ada,\np-03,Bo,\n"})
    assert list_names(folder, "p-01") == ()
    assert list_names(folder, "p-03") == ("Bo",)


def make_book() -> bytes:
    """Two sheets with a format, a merged cell, a formula and a chart, by openpyxl."""
    book = Workbook()
    sheet = book.active
    assert sheet is not None
    sheet.title = "results"
    sheet.append(["date", "person", "measure", "value", "note"])
    sheet.append(["2026-11-01", "p-01", "hold", 11, "only hers"])
    sheet.append(["2026-11-01", "p-02", "hold", 12, "shared"])
    sheet.append(["2026-11-02", "P-01", "hold", 13, "shared"])
    sheet["A3"].font = Font(bold=True)
    sheet.row_dimensions[2].height = 33
    other = book.create_sheet("sums")
    other.append(["all", "=SUM(results!D2:D4)"])
    other.merge_cells("A3:B3")
    chart = BarChart()
    chart.add_data(Reference(sheet, min_col=4, min_row=2, max_row=4))
    other.add_chart(chart, "D1")
    book.save(kept := BytesIO())
    return kept.getvalue()


def share_texts(content: bytes) -> bytes:
    """Put the texts of cells where spreadsheet programs keep them (ISO/IEC 29500-1, 18.4.8)."""
    texts: list[bytes] = []

    def share(found: re.Match[bytes]) -> bytes:
        texts.append(found[2]) if found[2] not in texts else None
        return b'<c r="%s" t="s"><v>%d</v></c>' % (found[1], texts.index(found[2]))

    cell = rb'<c r="(\w+)" t="inlineStr"><is><t>([^<]*)</t></is></c>'
    parts = {name: re.sub(cell, share, part) for name, part in read_parts(content).items()}
    strings = b"".join(b"<si><t>%s</t></si>" % text for text in texts)
    namespace = b"http://schemas.openxmlformats.org/spreadsheetml/2006/main"
    parts["xl/sharedStrings.xml"] = b'<sst xmlns="%s">%s</sst>' % (namespace, strings)
    kind = b"application/vnd.openxmlformats-officedocument.spreadsheetml.sharedStrings+xml"
    entry = b'<Override PartName="/xl/sharedStrings.xml" ContentType="%s"/></Types>' % kind
    types = "[Content_Types].xml"
    parts[types] = parts[types].replace(b"</Types>", entry)
    with ZipFile(kept := BytesIO(), "w") as file:
        for name, part in parts.items():
            file.writestr(name, part)
    return kept.getvalue()


def read_parts(content: bytes) -> dict[str, bytes]:
    with ZipFile(BytesIO(content)) as file:
        return {name: file.read(name) for name in file.namelist()}


def test_a_person_s_rows_of_a_spreadsheet_go_and_nothing_else_changes(
    write_program: WriteProgram,
) -> None:
    folder = write_program({"people.csv": "id,name,conditions\np-01,Ada,\np-02,Bo,\n"})
    (folder / "results.xlsx").write_bytes(old := share_texts(make_book()))
    assert forget(folder) == ["results.xlsx", "people.csv"]
    new = (folder / "results.xlsx").read_bytes()
    before, after = read_parts(old), read_parts(new)
    changed = {name for name in before if before[name] != after[name]}
    assert changed == {"xl/sharedStrings.xml", "xl/worksheets/sheet1.xml"}
    assert b"only hers" not in after["xl/sharedStrings.xml"]
    book = load_workbook(BytesIO(new))
    rows = [[cell.value for cell in row] for row in book["results"]]
    assert [row[1] for row in rows] == ["person", None, "p-02"]
    assert rows[2] == ["2026-11-01", "p-02", "hold", 12, "shared"]
    assert book["results"]["A3"].font.b
    assert book["sums"]["B1"].value == "=SUM(results!D2:D4)"
    assert list_changes(folder, "p-01") == ()


def test_rows_that_a_program_cannot_cut_are_named_and_stay(write_program: WriteProgram) -> None:
    folder = write_program()
    book = load_workbook(BytesIO(make_book()))
    book["results"]["C2"] = '=LOWER("HOLD")'
    book["results"]["E4"] = "=E3"
    book.save(folder / "results.xlsx")
    before = (folder / "results.xlsx").read_bytes()
    changes = list_changes(folder, "p-02")
    assert [each.path.name for each in changes] == ["results.xlsx", "people.csv"]
    (uncut, *_) = list_changes(folder, "p-01")
    assert (
        str(uncut).partition("program/")[2]
        == 'results.xlsx:sheet "results", row 2, 4: delete it in a spreadsheet program'
    )
    assert (folder / "results.xlsx").read_bytes() == before


def test_a_table_that_is_there_twice_is_refused(write_program: WriteProgram) -> None:
    folder = write_program()
    (folder / "people.xlsx").write_bytes(make_book())
    with pytest.raises(BuilderError, match=r'"people\.csv" is there as well'):
        list_changes(folder, "p-01")
