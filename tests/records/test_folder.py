"""Where a studio keeps its people."""

from pathlib import Path

import pytest

from builder.errors import BuilderError
from builder.records.folder import find_program_folder


def make(folder: Path, people: str = "people.csv", *, classes: bool = True) -> Path:
    folder.mkdir(parents=True)
    (folder / people).write_text("")
    if classes:
        (folder / "classes").mkdir()
    return folder


@pytest.mark.parametrize("people", ["people.csv", "people.xlsx"])
def test_the_only_folder_with_people_and_classes_is_found(tmp_path: Path, people: str) -> None:
    (tmp_path / "content").mkdir()
    make(tmp_path / "old people", classes=False)
    make(tmp_path / ".hidden")
    folder = make(tmp_path / "program", people)
    assert find_program_folder(tmp_path) == folder


def test_of_several_none_is_guessed(tmp_path: Path) -> None:
    make(tmp_path / "program")
    make(tmp_path / "demo")
    with pytest.raises(BuilderError, match='"demo" and "program" each hold people; say which'):
        find_program_folder(tmp_path)


def test_where_there_is_none_the_cure_is_named(tmp_path: Path) -> None:
    with pytest.raises(BuilderError, match="give another with --program"):
        find_program_folder(tmp_path)
    with pytest.raises(BuilderError, match="can't be read"):
        find_program_folder(tmp_path / "nowhere")


def test_the_folder_that_was_given_is_taken_if_it_holds_people(tmp_path: Path) -> None:
    given = make(tmp_path / "deep" / "down", classes=False)
    assert find_program_folder(tmp_path, given) == given
    with pytest.raises(BuilderError, match=r"holds no people\.csv"):
        find_program_folder(tmp_path, tmp_path)
