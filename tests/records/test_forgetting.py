"""Rows of one person go, and those of others stay to the letter."""

from pathlib import Path

import pytest

from builder.errors import BuilderError
from builder.records.forgetting import list_changes, list_names, make_changes
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
    changes = list_changes(folder, person_id)
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


def test_a_spreadsheet_is_refused(write_program: WriteProgram) -> None:
    folder = write_program()
    (folder / "results.xlsx").write_bytes(b"")
    with pytest.raises(BuilderError, match="spreadsheet"):
        list_changes(folder, "p-01")
