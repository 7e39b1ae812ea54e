from pathlib import Path

from typer.testing import CliRunner

from builder.cli.app import make_app
from tests.conftest import WriteCourse

PEOPLE = "id,display name,conditions\np-01,Ada Quill,\n"


def check(*words: str) -> tuple[int, str]:
    done = CliRunner().invoke(make_app(["check"]), ["check", *words])
    return done.exit_code, done.output


def write_program(root: Path, people: str) -> Path:
    folder = root / "program"
    (folder / "classes").mkdir(parents=True)
    (folder / "people.csv").write_text(people, encoding="utf-8")
    return folder


def test_a_sound_program_adds_no_finding(write_course: WriteCourse) -> None:
    root = write_course()
    folder = write_program(root, PEOPLE)
    assert check(str(root), "--program", str(folder)) == (0, "no findings in 5 lessons\n")


def test_faults_of_people_and_classes_are_told_with_those_of_the_course(
    write_course: WriteCourse,
) -> None:
    root = write_course()
    folder = write_program(root, PEOPLE + "p-02,,unheard-of\n")
    (folder / "classes/2026-11-24-tuesday.yml").write_text(
        "people: [p-01]\nminutes: 400\n", encoding="utf-8"
    )
    code, output = check(str(root), "--program", str(folder))
    assert code == 1
    assert "program/people.csv:3:" in output
    assert "program/classes/2026-11-24-tuesday.yml:2:10: H113" in output


def test_the_course_alone_is_checked_where_no_program_is_named(write_course: WriteCourse) -> None:
    root = write_course()
    write_program(root, "id\n")
    assert check(str(root))[0] == 0
