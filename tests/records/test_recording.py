"""Each row of an export is recorded once, and none is lost."""

import csv
from collections import Counter
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from builder.course.course import Course
from builder.errors import BuilderError
from builder.records.record_folder import read_records
from builder.records.recording import Recording, record_export
from tests.records.conftest import TODAY, WriteProgram

HEAD = (
    "kind,entry,date,person,lesson,outcome,breaths done,rest seconds,measure,side,value,unit,note"
)
DONE = "attendance,m1,2026-11-20,p-01,wide-ribs,ready,12,20,,,,,"
HELD = "result,m2,2026-11-20,p-01,,,,,hold,,12.5,s,calm"
PLAIN = "attendance,,2026-11-20,p-02,wide-ribs,again,,,,,,,"


@pytest.fixture
def folder(write_program: WriteProgram) -> Path:
    return write_program()


@pytest.fixture
def record(course: Course, folder: Path, tmp_path: Path):
    def record_rows(*rows: str, head: str = HEAD, name: str = "screen.csv") -> Recording:
        file = tmp_path / name
        file.write_text("\n".join((head, *rows)) + "\n", encoding="utf-8", newline="")
        return record_export(file, folder, course, TODAY)

    return record_rows


def rows_of(folder: Path, name: str) -> list[list[str]]:
    path = folder / f"{name}.csv"
    if not path.exists():
        return []
    with path.open(encoding="utf-8", newline="") as file:
        return list(csv.reader(file, strict=True))[1:]


def test_rows_go_to_the_file_of_their_kind(record, folder: Path) -> None:
    recording = record(DONE, HELD, PLAIN)
    assert (len(recording.added), recording.already, recording.aside) == (3, 0, 0)
    assert rows_of(folder, "attendance") == [
        ["2026-11-20", "p-01", "wide-ribs", "ready", "12", "20", "m1"],
        ["2026-11-20", "p-02", "wide-ribs", "again", "", "", ""],
    ]
    assert rows_of(folder, "results") == [
        ["2026-11-20", "p-01", "hold", "", "12.5", "s", "", "calm", "m2"]
    ]


def test_the_same_file_twice_adds_nothing(record, folder: Path) -> None:
    record(DONE, PLAIN, PLAIN, HELD)
    before = {path.name: path.read_bytes() for path in folder.glob("*.csv")}
    recording = record(DONE, PLAIN, PLAIN, HELD)
    assert (recording.added, recording.already) == ((), 4)
    assert {path.name: path.read_bytes() for path in folder.glob("*.csv")} == before


def test_equal_rows_without_a_mark_are_counted(record, folder: Path) -> None:
    record(PLAIN)
    assert len(record(PLAIN, PLAIN, PLAIN).added) == 2
    assert record(PLAIN, PLAIN).added == ()
    assert len(rows_of(folder, "attendance")) == 3


def test_rows_that_say_the_same_in_other_writing_are_equal(record, folder: Path) -> None:
    record(HELD.replace("m2", ""), PLAIN)
    again = record(
        'Result,,2026-11-20,P-01,,,,,hold,,"12,50",,calm',
        "attendance,,2026-11-20,p-02,broad-ribs,AGAIN,,,,,,,",
    )
    assert (again.added, again.already) == ((), 2)


def test_a_mark_with_other_content_is_told_and_kept_aside(record, folder: Path) -> None:
    record(DONE)
    recording = record(DONE.replace("ready", "easier"), PLAIN)
    assert [str(each).split(": ", 1)[1] for each in recording.findings] == [
        'K107 row-doubled: the mark "m1" is on record with another row; see which of both is '
        "right, and give the other a mark of its own."
    ]
    assert (len(recording.added), recording.already, recording.aside) == (1, 0, 1)
    assert [row[3] for row in rows_of(folder, "attendance")] == ["ready", "again"]


def test_a_mark_twice_in_one_file_counts_once(record) -> None:
    recording = record(DONE, DONE, DONE.replace("12", "13"))
    assert (len(recording.added), recording.already, recording.aside) == (1, 1, 1)


def test_bad_rows_are_kept_aside_with_their_reason(record, folder: Path) -> None:
    bad = [DONE.replace("p-01", "p-09"), '"x"y', "attendance,,,,", f"{PLAIN},more"]
    recording = record(*bad, HELD)
    assert (len(recording.added), recording.aside) == (1, 4)
    assert recording.kept is not None
    with recording.kept.open(encoding="utf-8", newline="") as file:
        head, *rows = csv.reader(file, strict=True)
    assert head == ["row", "reason", *HEAD.split(",")]
    assert [row[0] for row in rows] == ["2", "3", "4", "5"]
    assert '"p-09" under "person" is unknown' in rows[0][1]
    assert rows[0][2:] == bad[0].split(",")
    assert rows[1][2] == '"x"y\n'
    assert record(*bad, HELD).kept == recording.kept
    assert len(list((folder / "not-recorded").iterdir())) == 1


def test_rows_kept_aside_are_recorded_once_mended(record, folder: Path, course: Course) -> None:
    kept = record(DONE.replace("p-01", "p-09"), HELD).kept
    assert kept is not None
    kept.write_text(kept.read_text().replace(",p-09,", ",p-01,"))
    recording = record_export(kept, folder, course, TODAY)
    assert (len(recording.added), recording.findings) == (1, ())
    assert len(rows_of(folder, "attendance")) == 1


def test_rows_kept_aside_twice_have_one_reason_each(record, folder: Path, course: Course) -> None:
    kept = record(DONE.replace("p-01", "p-09")).kept
    assert kept is not None
    again = record_export(kept, folder, course, TODAY).kept
    assert again is not None
    assert again.read_text().splitlines()[0] == f"row,reason,{HEAD}"


def test_cells_that_a_row_of_its_kind_has_no_room_for_are_told(record) -> None:
    recording = record(DONE.replace(",,,,,", ",hold,,9,,"))
    assert recording.added == ()
    assert 'a row of kind "attendance" has no "measure"' in str(recording.findings[0])


def test_files_shaped_like_the_records_are_taken(record, folder: Path) -> None:
    record("2026-11-20,p-01,wide-ribs,ready", head="date,person,lesson,outcome")
    record("2026-11-20;p-01;hold;12,5", head="date;person;measure;value")
    assert len(rows_of(folder, "attendance")) == 1
    assert rows_of(folder, "results")[0][4] == "12.5"


@pytest.mark.parametrize("name", ["attendance", "results"])
def test_a_program_s_own_file_is_on_record_already(
    record, folder: Path, course: Course, name: str
) -> None:
    record(DONE, PLAIN, PLAIN, HELD)
    file = folder / f"{name}.csv"
    before = file.read_bytes()
    recording = record_export(file, folder, course, TODAY)
    assert (recording.added, recording.findings) == ((), ())
    assert recording.already == before.count(b"\n") - 1
    assert file.read_bytes() == before


def test_a_trial_writes_nothing(record, folder: Path, course: Course, tmp_path: Path) -> None:
    (tmp_path / "screen.csv").write_text(f"{HEAD}\n{DONE}\nbad\n")
    before = sorted(folder.rglob("*"))
    recording = record_export(tmp_path / "screen.csv", folder, course, TODAY, is_trial=True)
    assert (len(recording.added), recording.aside, recording.kept) == (1, 1, None)
    assert sorted(folder.rglob("*")) == before


def test_a_file_without_its_columns_is_kept_aside_whole(record) -> None:
    recording = record("2026-11-20,p-01", head="date,person")
    assert recording.aside == 1
    assert {each.rule.id for each in recording.findings} == {"K102"}
    assert recording.kept is not None
    assert "2026-11-20,p-01" in recording.kept.read_text()


def test_rows_of_a_person_whose_own_row_has_a_fault_are_recorded(
    record, write_program: WriteProgram
) -> None:
    write_program({"people.csv": "id,name,conditions\np-01,Ada,pregnacy\n"})
    assert len(record(DONE).added) == 1


@pytest.mark.parametrize(
    ("file", "text", "fact"),
    [
        ("people.csv", "id,name\n", 'the column "conditions" is missing'),
        ("attendance.csv", "a,b\n", 'the column "date" is missing'),
        ("attendance.csv", 'date,person,lesson,outcome\n"x\n', "the quotes in row 2"),
        ("attendance.xlsx", "", "rows can't be added to the spreadsheet"),
    ],
)
def test_a_program_that_can_not_be_added_to_stops_the_run(
    record, folder: Path, file: str, text: str, fact: str
) -> None:
    (folder / file).write_text(text)
    with pytest.raises(BuilderError, match="; ") as refusal:
        record(DONE)
    assert fact in refusal.value.message
    assert (folder / file).read_text() == text


def test_no_name_of_a_file_tells_who_comes(record, folder: Path) -> None:
    record(DONE, DONE.replace("m1", "m9").replace("p-01", "p-09"), name="Ada Quill, class.csv")
    names = " ".join(path.name for path in folder.rglob("*")).casefold()
    assert "export-" in names
    assert not [part for part in ("ada", "quill", "tern") if part in names]


def test_no_file_that_recording_makes_holds_a_display_name(record, folder: Path) -> None:
    record(DONE, HELD, PLAIN, DONE.replace("m1", "m9").replace("p-01", "p-09"))
    for path in folder.rglob("*.csv"):
        if path.name != "people.csv":
            assert not [name for name in ("Ada", "Quill", "Tern") if name in path.read_text()]


def make_row(kind: str, entry: str, outcome: str, value: int) -> str:
    if kind == "attendance":
        return f"attendance,{entry},2026-11-20,p-01,wide-ribs,{outcome},{value},,,,,,"
    return f"result,{entry},2026-11-20,p-01,,,,,hold,,{value},s,"


EXPORTS = st.lists(
    st.lists(
        st.tuples(
            st.sampled_from(["attendance", "result"]),
            st.just(""),
            st.sampled_from(["ready", "again"]),
            st.integers(1, 2),
        ),
        max_size=5,
    ),
    min_size=1,
    max_size=3,
)


@settings(max_examples=25, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(exports=EXPORTS)
def test_every_row_is_on_record_as_often_as_the_fullest_export_has_it(
    record, folder: Path, course: Course, exports: list[list[tuple[str, str, str, int]]]
) -> None:
    for name in ("attendance.csv", "results.csv"):
        (folder / name).unlink(missing_ok=True)
    for export in [*exports, *exports]:
        record(*(make_row(*row) for row in export))
    wanted: Counter[tuple[object, ...]] = Counter()
    for export in exports:
        wanted |= Counter(
            (kind, outcome if kind == "attendance" else "", value)
            for kind, _, outcome, value in export
        )
    program = read_records(folder, course, TODAY).program
    found = Counter[tuple[object, ...]](
        ("attendance", row.outcome.value, row.breaths_done) for row in program.attendance
    ) + Counter(("result", "", row.value) for row in program.results)
    assert found == wanted
