"""All class files of a program folder, in order, with every problem of every file."""

from pathlib import Path

import pytest

from builder.errors import BuilderError
from builder.records.classes_folder import (
    read_class_file,
    read_classes,
    read_courses,
    read_weeks_file,
)
from builder.records.known import Known

CLASS = "people: [C1]\nminutes: 60\n"
WEEKS = f"{CLASS}weeks: 1\nweekdays: [tue]\naim: [short-hold]\n"


@pytest.fixture
def program(tmp_path: Path) -> Path:
    folder = tmp_path / "program"
    for name in ("classes", "courses"):
        (folder / name).mkdir(parents=True)
    return folder


def write_classes(program: Path, *names: str) -> None:
    for name in names:
        (program / "classes" / name).write_text(CLASS, "utf-8")


def test_classes_come_by_day_and_name(program: Path, known: Known) -> None:
    write_classes(program, "2026-12-01-b.yml", "2026-11-24-b.yml", "2026-11-24-a-b.yml", ".x.yml")
    orders, findings = read_classes(program, known)
    assert findings == []
    assert [order.title for order in orders] == [
        "2026-11-24-a-b",
        "2026-11-24-b",
        "2026-12-01-b",
    ]
    assert orders[0].place.path == "program/classes/2026-11-24-a-b.yml"


def test_a_bad_file_hides_no_other(program: Path, known: Known) -> None:
    write_classes(program, "2026-11-24-a.yml", "2026-11-25.yml", "2026-11-26-c.yaml")
    (program / "classes" / "2026-11-27-d.yml").write_bytes(b"people: [\xff]\n")
    (program / "classes" / "2026-11-28-e.yml").mkdir()
    (program / "classes" / "2026-11-29-f.yml").write_text("people: [C9]\nminutes: 1\n", "utf-8")
    orders, findings = read_classes(program, known)
    assert [order.title for order in orders] == ["2026-11-24-a"]
    assert sorted(f"{each.place} {each.rule.id}" for each in findings) == [
        "program/classes/2026-11-25.yml:1:1 H108",
        "program/classes/2026-11-26-c.yaml:1:1 H115",
        "program/classes/2026-11-27-d.yml:1:1 H116",
        "program/classes/2026-11-28-e.yml:1:1 H115",
        "program/classes/2026-11-29-f.yml:1:10 H110",
        "program/classes/2026-11-29-f.yml:2:10 H113",
    ]


def test_a_folder_that_is_not_there_holds_no_classes(tmp_path: Path, known: Known) -> None:
    assert read_classes(tmp_path, known) == ((), [])
    assert read_courses(tmp_path, known) == ((), [])


def test_courses_of_several_weeks_are_read_alike(program: Path, known: Known) -> None:
    path = program / "courses" / "2026-11-24-winter.yml"
    path.write_text(WEEKS, "utf-8")
    (order,), findings = read_courses(program, known)
    assert findings == []
    assert read_weeks_file(program, path, known) == (order, [])


def test_one_file_is_read_by_whatever_way_leads_to_it(
    program: Path, known: Known, monkeypatch: pytest.MonkeyPatch
) -> None:
    write_classes(program, "2026-11-24-a.yml")
    monkeypatch.chdir(program / "classes")
    for folder, path in (
        (program, Path("2026-11-24-a.yml")),
        (Path(".."), Path("../classes/2026-11-24-a.yml")),
    ):
        order, findings = read_class_file(folder, path, known)
        assert findings == []
        assert order is not None
    (program.parent / "link").symlink_to(program, target_is_directory=True)
    linked = program.parent / "link" / "classes" / "2026-11-24-a.yml"
    order, findings = read_class_file(program.parent / "link", linked, known)
    assert findings == []
    assert order is not None
    assert order.place.path == "link/classes/2026-11-24-a.yml"


def test_a_file_of_another_folder_stops_the_run(program: Path, known: Known) -> None:
    stray = program.parent / "2026-11-24-a.yml"
    stray.write_text(CLASS, "utf-8")
    with pytest.raises(BuilderError, match="is not in the program folder"):
        read_class_file(program, stray, known)


def test_a_link_that_leads_out_is_not_followed(program: Path, known: Known) -> None:
    outside = program.parent / "2026-11-24-a.yml"
    outside.write_text(CLASS, "utf-8")
    (program / "classes" / outside.name).symlink_to(outside)
    orders, (finding,) = read_classes(program, known)
    assert orders == ()
    assert "leads out" in finding.fact
    assert finding.place.path == "program/classes/2026-11-24-a.yml"
