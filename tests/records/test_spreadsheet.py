"""Spreadsheets as tables, written by openpyxl as the second party."""

import io
import subprocess
import sys
import zipfile
from datetime import date, datetime
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st
from openpyxl import Workbook

from builder.records.spreadsheet import MOST_UNPACKED_BYTES, read_spreadsheet
from builder.records.table import Row

Rows = list[list[object]]


def write(rows: Rows, *, name: str = "Sheet", more: dict[str, Rows] | None = None) -> bytes:
    book = Workbook()
    sheet = book.active
    assert sheet is not None
    sheet.title = name
    for row in rows:
        sheet.append(row)
    for title, others in (more or {}).items():
        extra = book.create_sheet(title)
        for row in others:
            extra.append(row)
    kept = io.BytesIO()
    book.save(kept)
    return kept.getvalue()


def swap(content: bytes, old: bytes, new: bytes) -> bytes:
    """Change the text of a workbook's parts."""
    kept = io.BytesIO()
    with zipfile.ZipFile(io.BytesIO(content)) as source, zipfile.ZipFile(kept, "w") as target:
        for part in source.namelist():
            target.writestr(part, source.read(part).replace(old, new))
    return kept.getvalue()


def read(content: bytes, name: str = "people") -> tuple[tuple[Row, ...], list[str]]:
    table, findings = read_spreadsheet("t.xlsx", content, name)
    return table.rows if table else (), [str(each) for each in findings]


def test_cells_become_what_a_person_would_write() -> None:
    rows: Rows = [
        ["date", "value", "note", "more"],
        [date(2026, 11, 24), 12.5, "calm", None],
        [None, None, None, None],
        [datetime(2026, 11, 24, 9, 30), 12.0, 7, True],
    ]
    assert read(write(rows)) == (
        (
            Row(2, ("2026-11-24", "12.5", "calm", "")),
            Row(4, ("2026-11-24T09:30:00", "12", "7", "True")),
        ),
        [],
    )


@given(st.lists(st.text(st.sampled_from("ab =+-@'é;,"), max_size=6), min_size=1, max_size=5))
def test_text_reads_back_as_it_was(cells: list[str]) -> None:
    book = Workbook()
    sheet = book.active
    assert sheet is not None
    sheet.append(["end", *(f"c{number}" for number in range(len(cells)))])
    sheet.append(["x"])
    for number, cell in enumerate(cells, start=2):
        sheet.cell(2, number).value = cell
        sheet.cell(2, number).data_type = "s"
    kept = io.BytesIO()
    book.save(kept)
    (row,), findings = read(kept.getvalue())
    free = [
        cell[1:] if cell.lstrip("'")[:1] in set("=+-@") and cell[:1] == "'" else cell
        for cell in cells
    ]
    assert (list(row.cells), findings) == (["x", *free], [])


def test_a_formula_at_the_end_of_a_row_is_not_taken_for_an_empty_cell() -> None:
    rows: Rows = [["date", "value", "note"], ["2026-11-24", 1, "=A2"], ["2026-11-25", 2, "x"]]
    kept, findings = read(write(rows))
    assert [row.line for row in kept] == [3]
    assert [str(each).partition(";")[0] for each in findings] == [
        't.xlsx:2:3: K104 row-unreadable: the formula "=A2" has no worked-out value'
    ]


def test_a_formula_counts_as_its_worked_out_value_and_without_one_is_told() -> None:
    content = write([["a", "b"], ["=1+1", "x"], ["3", "y"]])
    rows, findings = read(content)
    assert rows == (Row(3, ("3", "y")),)
    assert findings == [
        't.xlsx:2:1: K104 row-unreadable: the formula "=1+1" has no worked-out value; save the '
        "file in a spreadsheet program, or write the value itself."
    ]
    worked_out = swap(content, b"<f>1+1</f><v></v>", b"<f>1+1</f><v>2</v>")
    worked_out = swap(worked_out, b"<f>1+1</f><v/>", b"<f>1+1</f><v>2</v>")
    assert read(worked_out)[0][0] == Row(2, ("2", "x"))


def test_of_several_sheets_the_one_named_like_the_file_counts() -> None:
    content = write([["a"], ["first"]], more={"People": [["a"], ["named"]]})
    assert read(content) == ((Row(2, ("named",)),), [])


def test_of_several_sheets_none_is_guessed_but_empty_ones_do_no_harm() -> None:
    content = write([["a"], ["first"]], more={"More": [["a"], ["second"]]})
    assert read(content, "results") == (
        (),
        [
            "t.xlsx:1:1: K101 table-unreadable: 2 sheets of the file hold rows, and none is called "
            '"results"; give the one that counts that name, or keep one only.'
        ],
    )
    content = write([], more={"More": [["a"], ["second"]]})
    assert read(content, "results")[0] == (Row(2, ("second",)),)


def test_more_cells_than_the_header_are_told() -> None:
    _, findings = read(write([["a", "b"], ["x", "y", None, "z"]]))
    assert findings[0].startswith("t.xlsx:2:3: K104 row-unreadable: the row has")


def bomb() -> bytes:
    kept = io.BytesIO()
    with zipfile.ZipFile(kept, "w", zipfile.ZIP_DEFLATED) as packed:
        for number in range(4):
            packed.writestr(f"xl/{number}.xml", b" " * (MOST_UNPACKED_BYTES // 4 + 1))
    return kept.getvalue()


def laugh() -> bytes:
    """Entities that each stand for ten of the one before, as the "billion laughs" file has them."""
    entities = "".join(
        f'<!ENTITY e{number} "{f"&e{number - 1};" * 10}">' for number in range(1, 12)
    )
    start = f'<!DOCTYPE w [<!ENTITY e0 "ha">{entities}]><worksheet'.encode()
    content = swap(write([["a"], ["marker"]]), b"<worksheet", start)
    return swap(content, b"marker", b"&e11;")


def far() -> bytes:
    return swap(write([["a"], ["x"]]), b'r="2"', b'r="99999999"')


INLINE = b't="inlineStr"><is><t>x</t></is>'


@pytest.mark.parametrize(
    ("content", "fact"),
    [
        (b"", "the file is no sound XLSX file"),
        (b"date,person\n", "the file is no sound XLSX file"),
        (write([["a"], ["x"]])[:-200], "the file is no sound XLSX file"),
        (swap(write([["a"], ["x"]]), b"<sheetData>", b"<sheetDat"), "the file is no sound XLSX"),
        (swap(write([["a"], ["x"]]), INLINE, b't="s"><v>99</v>'), "the file is no sound XLSX"),
        (bomb(), "the file unpacks to"),
        (laugh(), "the file is no sound XLSX file"),
        (far(), "the sheet goes on beyond row 400000"),
        (write([["a"], ["x"] * 300]), "the sheet has more than 200 columns"),
        (write([]), "the sheet is empty"),
    ],
    ids=["nothing", "csv", "cut", "xml", "index", "bomb", "laugh", "far", "wide", "empty"],
)
def test_a_file_that_is_no_sheet_is_one_finding(content: bytes, fact: str) -> None:
    rows, findings = read(content)
    assert rows == ()
    assert len(findings) == 1
    assert findings[0].startswith(f"t.xlsx:1:1: K101 table-unreadable: {fact}")


@given(st.data())
def test_no_broken_workbook_brings_the_reader_down(data: st.DataObject) -> None:
    content = bytearray(SOUND)
    for _ in range(data.draw(st.integers(1, 4))):
        content[data.draw(st.integers(0, len(content) - 1))] = data.draw(st.integers(0, 255))
    table, findings = read_spreadsheet("t.xlsx", bytes(content), "people")
    assert table is not None or findings


SOUND = swap(write([["id", "when"], ["p-01", date(2026, 1, 2)], ["p-02", 3.5]]), b"", b"")


def test_without_the_extra_the_cure_is_named(tmp_path: Path) -> None:
    path = tmp_path / "people.xlsx"
    path.write_bytes(write([["a"], ["x"]]))
    script = (
        "import sys; sys.modules['openpyxl'] = None\n"
        "from pathlib import Path\n"
        "from builder.records.table_file import read_table\n"
        "print(*read_table(Path(sys.argv[1]), 'people.xlsx')[1])"
    )
    said = subprocess.run(
        [sys.executable, "-c", script, path], capture_output=True, text=True, check=True
    ).stdout
    assert said == (
        "people.xlsx:1:1: K101 table-unreadable: spreadsheets can't be read without a further "
        'package; pip install "tempoleaf[spreadsheets]".\n'
    )
