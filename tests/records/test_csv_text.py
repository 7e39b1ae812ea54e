"""CSV as people and spreadsheet programs write it, and back."""

import csv
import io

import pytest
from hypothesis import given
from hypothesis import strategies as st

from builder.records.csv_text import Layout, read_csv, write_csv_rows
from builder.records.table import LARGEST_ROW_CHARACTERS, MOST_BROKEN_ROWS, MOST_ROWS

SIGNS = st.sampled_from([*"abZ09 ,;|\t'\"=+-@\n\r.é\u00a0＝🙂"])
CELLS = st.text(SIGNS, max_size=8)
ROWS = st.lists(st.tuples(CELLS, CELLS, CELLS), max_size=6)
HEADER = ("a", "b", "c")


def read(text: str | bytes) -> tuple[list[tuple[str, ...]], list[str]]:
    content = text.encode() if isinstance(text, str) else text
    table, _, findings = read_csv("t.csv", content)
    return [row.cells for row in table.rows] if table else [], [str(each) for each in findings]


@pytest.mark.parametrize("start", ["", "\ufeff", "\n\n"])
@given(
    separator=st.sampled_from(",;\t|"), line_end=st.sampled_from(["\n", "\r\n", "\r"]), rows=ROWS
)
def test_what_is_written_reads_back_equal(
    separator: str, line_end: str, start: str, rows: list[tuple[str, ...]]
) -> None:
    text = start + write_csv_rows([HEADER, *rows], Layout(separator, line_end))
    table, layout, findings = read_csv("t.csv", text.encode())
    assert findings == []
    assert table is not None
    assert [row.cells for row in table.rows] == [row for row in rows if any(map(str.strip, row))]
    assert layout.separator == separator
    assert text[: layout.header_end].endswith(f"a{separator}b{separator}c")


@given(rows=ROWS)
def test_pythons_reader_finds_the_same_rows_with_formulas_made_harmless(
    rows: list[tuple[str, ...]],
) -> None:
    text = write_csv_rows(rows, Layout())
    second = list(csv.reader(io.StringIO(text, newline=""), strict=True))
    assert len(second) == len(rows)
    for cells, row in zip(second, rows, strict=True):
        for cell, was in zip(cells, row, strict=True):
            assert cell in (was, f"'{was}")
            assert not cell.startswith(("=", "@", "\t", "\r"))


@pytest.mark.parametrize(
    ("cell", "written"),
    [("=1+1", "'=1+1"), ("-3.5", "-3.5"), ("+2", "+2"), ("-calm", "'-calm"), ("'=x", "''=x")],
)
def test_formulas_are_guarded_and_numbers_are_not(cell: str, written: str) -> None:
    """Guarded signs: the list of OWASP's page on CSV injection, from memory."""
    text = write_csv_rows([HEADER, (cell, "x", "")], Layout())
    assert text == f"a,b,c\n{written},x,\n"
    assert read(text)[0] == [(cell, "x", "")]


def test_a_row_has_the_number_of_its_first_line() -> None:
    table, _, _ = read_csv("t.csv", b'\r\na;b\r\n"x\r\ny";1\r\n\r\n;;\r\nz;2')
    assert table is not None
    assert [(row.line, row.cells) for row in table.rows] == [(3, ("x\r\ny", "1")), (7, ("z", "2"))]


def test_a_separator_that_a_spreadsheet_told_itself_is_taken() -> None:
    assert read("sep=;\r\na;b\r\n1,5;2\r\n") == ([("1,5", "2")], [])


@pytest.mark.parametrize(
    ("broken", "line", "fact"),
    [
        ('"x,1', 2, "the quotes of this row don't come in pairs"),
        ('"x"y,1', 2, "the quotes of this row don't come in pairs"),
        ("x,1,2", 2, "the row has 3 cells, its header 2"),
        ("x\x00,1", 2, "a sign that can't be seen or printed (U+0000) stands here"),
        ("x,\u202e1", 2, "a sign that can't be seen or printed (U+202E) stands here"),
        ("y" * (LARGEST_ROW_CHARACTERS + 1), 2, "the row is longer than 65536 characters"),
        ('"' + "y\n" * LARGEST_ROW_CHARACTERS, 2, "the row is longer than 65536 characters"),
    ],
)
def test_a_broken_row_is_told_and_the_rest_is_kept(broken: str, line: int, fact: str) -> None:
    rows, findings = read(f"a,b\n{broken}\nz,2\n")
    assert rows[-1] == ("z", "2")
    assert findings[0].startswith(f"t.csv:{line}:")
    assert f"K104 row-unreadable: {fact}" in findings[0]


def test_rows_that_are_set_apart_keep_their_text() -> None:
    table, _, _ = read_csv("t.csv", b'a,b\n"x"y,1\nu,v,w\n')
    assert table is not None
    assert [row.cells for row in table.unread] == [('"x"y,1\n',), ("u", "v", "w")]


@pytest.mark.parametrize(
    ("content", "found"),
    [
        (b"", "t.csv:1:1: K101 table-unreadable: the file is empty"),
        (b"\xef\xbb\xbf \n", "t.csv:1:1: K101 table-unreadable: the file is empty"),
        ("a,b\né,1\n".encode("cp1252"), "t.csv:2:1: K101 table-unreadable: the file is not UTF-8"),
        ("a,b\n1,2\n".encode("utf-16"), "t.csv:1:1: K101 table-unreadable: the file is UTF-16"),
        (b'"a,b\n1,2\n', "t.csv:1:1: K101 table-unreadable: the quotes of this row"),
        (b"a,b\n" + b"1,2\n" * (MOST_ROWS + 1), "t.csv:1:1: K101 table-unreadable: the file has"),
        (b"a,b\n" + b'"x"y\n' * (MOST_BROKEN_ROWS + 1), "t.csv:2:1: K101 table-unreadable: more"),
    ],
    ids=["empty", "blank", "windows-1252", "utf-16", "header", "too-many", "broken"],
)
def test_a_file_that_is_no_table_is_one_finding(content: bytes, found: str) -> None:
    rows, findings = read(content)
    assert rows == []
    assert len(findings) == 1
    assert findings[0].startswith(found)


@given(st.binary(max_size=80) | st.text('a,;"\n\r\t\x00', max_size=60).map(str.encode))
def test_no_bytes_bring_the_reader_down(content: bytes) -> None:
    table, _, findings = read_csv("t.csv", content)
    assert table is not None or findings
