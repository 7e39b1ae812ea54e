"""A program folder in one value."""

from pathlib import Path

from builder.course.course import Course
from builder.records.program_reading import read_program
from builder.records.record_folder import read_records

PEOPLE = "id,display name,conditions\nR1,Rosa,\n"
WEEKS = "people: [R1]\nweeks: 2\nweekdays: [tue]\nminutes: 45\naim: [wide-ribs]\n"


def write(folder: Path, files: dict[str, str]) -> Path:
    for name, text in files.items():
        path = folder / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text, encoding="utf-8")
    return folder


def test_records_studio_and_classes_are_read_together(tmp_path: Path, course: Course) -> None:
    files = {
        "people.csv": PEOPLE,
        "studio.yml": "name: Tern Studio\n",
        "classes/2026-09-14-early.yml": "people: [R1]\nminutes: 45\n",
        "courses/2026-09-15-autumn.yml": WEEKS,
    }
    folder = write(tmp_path, files)
    reading = read_program(folder, read_records(folder, course))
    assert reading.faults == ()
    assert reading.studio.name == "Tern Studio"
    assert [each.name for each in (*reading.classes, *reading.courses)] == ["early", "autumn"]
    assert reading.people_place.path.endswith("people.csv")


def test_faults_of_classes_are_kept_apart_from_those_of_rows(
    tmp_path: Path, course: Course
) -> None:
    files = {
        "people.csv": f"{PEOPLE}R1,Again,\n",
        "studio.yml": "paper: a9\n",
        "classes/2026-09-14-early.yml": "people: [X9]\nminutes: 45\n",
    }
    folder = write(tmp_path, files)
    reading = read_program(folder, read_records(folder, course))
    assert len(reading.records.findings) == 1
    assert {str(each).split(":")[0].rpartition("/")[2] for each in reading.faults} == {
        "studio.yml",
        "2026-09-14-early.yml",
    }
    assert reading.studio.name == course.settings.studio.name
