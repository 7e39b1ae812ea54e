"""Rows are added, and what stands in a file stays to the letter."""

import csv
import io
import subprocess
import sys
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from builder.errors import BuilderError
from builder.records.columns import ATTENDANCE, RESULTS
from builder.records.csv_text import read_csv
from builder.records.journal import LOCK, append_rows, extend, hold_folder

HEAD = "date,person,lesson,outcome,breaths done,rest seconds"
ROW = {"date": "2026-11-20", "person": "p-01", "lesson": "box", "outcome": "ready"}
MARKED = ROW | {"entry": "m1"}


def add(old: str, *rows: dict[str, str]) -> str:
    return extend("attendance.csv", old.encode(), ATTENDANCE, rows).decode()


def test_a_new_file_gets_the_header_and_the_rows(tmp_path: Path) -> None:
    path = tmp_path / "attendance.csv"
    append_rows(path, ATTENDANCE, [ROW, MARKED | {"breaths done": "12"}])
    assert (
        path.read_text()
        == f"{HEAD},entry\n2026-11-20,p-01,box,ready,,,\n2026-11-20,p-01,box,ready,12,,m1\n"
    )
    assert sorted(each.name for each in tmp_path.iterdir()) == [LOCK, "attendance.csv"]


@pytest.mark.parametrize(
    ("old", "added"),
    [
        (f"{HEAD}\n", "2026-11-20,p-01,box,ready,,\n"),
        (HEAD, "\n2026-11-20,p-01,box,ready,,\n"),
        (f"{HEAD}\r\nx,y\r\n", "2026-11-20,p-01,box,ready,,\r\n"),
        (f"\ufeff{HEAD.replace(',', ';')}\r\n", "2026-11-20;p-01;box;ready;;\r\n"),
        ("sep=;\r\nOutcome;Lesson;mine;Date;Person", "\r\nready;box;;2026-11-20;p-01\r\n"),
        (f"{HEAD}\n\n\n", "2026-11-20,p-01,box,ready,,\n"),
        (f'{HEAD}\n"a\nb",c\n', "2026-11-20,p-01,box,ready,,\n"),
    ],
)
def test_new_rows_are_written_as_the_old_ones_are(old: str, added: str) -> None:
    assert add(old, ROW) == old + added


@pytest.mark.parametrize("start", ["", "\ufeff", "sep=,\n"])
def test_only_the_header_gains_the_column_of_marks(start: str) -> None:
    old = f"{start}{HEAD}\n2026-11-19,p-01,box,again,,\n"
    new = add(old, MARKED)
    assert new == old.replace("seconds\n", "seconds,entry\n") + "2026-11-20,p-01,box,ready,,,m1\n"
    assert add(new, MARKED) == f"{new}2026-11-20,p-01,box,ready,,,m1\n"


SIGNS = st.text(st.sampled_from("ab,;'\"=+-@\n\r\té"), max_size=8).map(str.strip)


@given(
    notes=st.lists(SIGNS, min_size=1, max_size=4),
    old=st.lists(SIGNS, max_size=3),
    line_end=st.sampled_from(["\n", "\r\n"]),
)
def test_any_text_is_added_and_reads_back_equal(
    notes: list[str], old: list[str], line_end: str
) -> None:
    kept = io.StringIO(newline="")
    rows = [["date", "person", "measure", "value", "note"], *(["d", "p", "m", "1", n] for n in old)]
    csv.writer(kept, lineterminator=line_end, quoting=csv.QUOTE_ALL).writerows(rows)
    before = kept.getvalue().encode()
    cells = {"date": "2026-11-20", "person": "p", "measure": "m", "value": "-1.5"}
    after = extend("results.csv", before, RESULTS, [cells | {"note": note} for note in notes])
    assert after.startswith(before)
    table, _, findings = read_csv("results.csv", after)
    assert table is not None
    assert findings == []
    assert [row.cells[4] for row in table.rows[len(old) :]] == notes
    second = list(csv.reader(io.StringIO(after.decode(), newline=""), strict=True))
    assert len(second) == 1 + len(old) + len(notes)
    assert all(row[3] == "-1.5" for row in second[1 + len(old) :])


@pytest.mark.parametrize(
    ("old", "fact"),
    [
        ("date,person\n", 'attendance.csv:1:1: the column "lesson" is missing'),
        ("day,date,person,lesson,outcome\n", '"date" is the second column for "date"'),
        (f'{HEAD}\n"x,y\n', 'the quotes in row 2 of "attendance.csv" don\'t come in pairs'),
        (f"{HEAD}\n1,2,3,4,5,6,7\n", 'row 2 of "attendance.csv" has more cells than its header'),
        ("date,person,lesson,outcome\n", '"attendance.csv" has no column "rest seconds"'),
    ],
)
def test_what_would_do_harm_is_refused(old: str, fact: str) -> None:
    with pytest.raises(BuilderError, match=r"attendance\.csv") as refusal:
        add(old, MARKED | {"rest seconds": "20"})
    assert fact in refusal.value.message


def test_bytes_that_are_no_text_are_refused_and_left(tmp_path: Path) -> None:
    path = tmp_path / "attendance.csv"
    path.write_bytes(b"\xff\x00")
    with pytest.raises(BuilderError, match="the file is not UTF-8 text"):
        append_rows(path, ATTENDANCE, [ROW])
    assert path.read_bytes() == b"\xff\x00"


def test_a_spreadsheet_of_the_same_rows_is_not_added_to(tmp_path: Path) -> None:
    (tmp_path / "attendance.xlsx").write_bytes(b"PK")
    with pytest.raises(BuilderError, match=r'save it as "attendance\.csv"'):
        append_rows(tmp_path / "attendance.csv", ATTENDANCE, [ROW])


def test_a_link_stays_a_link_and_rights_stay_rights(tmp_path: Path) -> None:
    kept = tmp_path / "kept.csv"
    kept.write_text(f"{HEAD}\n")
    kept.chmod(0o640)
    (tmp_path / "attendance.csv").symlink_to(kept)
    append_rows(tmp_path / "attendance.csv", ATTENDANCE, [ROW])
    assert (tmp_path / "attendance.csv").is_symlink()
    assert kept.read_text().endswith("ready,,\n")
    assert kept.stat().st_mode & 0o777 == 0o640


def test_a_second_writer_waits_and_then_says_so(tmp_path: Path) -> None:
    script = (
        "import sys; from pathlib import Path\n"
        "from builder.errors import BuilderError\n"
        "from builder.records.journal import hold_folder\n"
        "try:\n    with hold_folder(Path(sys.argv[1]), 0.2): print('in')\n"
        "except BuilderError as error: print(error.message)"
    )
    words = [sys.executable, "-c", script, str(tmp_path)]
    with hold_folder(tmp_path):
        said = subprocess.run(words, capture_output=True, text=True, check=True).stdout
    assert said == f'another program is writing in "{tmp_path}"\n'
    assert subprocess.run(words, capture_output=True, text=True, check=True).stdout == "in\n"


@given(st.text(st.sampled_from('ab,"\n\r; =-'), max_size=25), st.sampled_from(["", "entry"]))
def test_behind_any_old_text_other_readers_find_the_new_row_or_it_is_refused(
    old: str, mark: str
) -> None:
    before = f"{HEAD}\n{old}"
    row = ROW | {"entry": mark}
    try:
        after = add(before, row)
    except BuilderError:
        return
    assert after.partition("\n")[2].startswith(old)
    second = list(csv.reader(io.StringIO(after, newline="")))
    assert second[-1][:4] == ["2026-11-20", "p-01", "box", "ready"]
