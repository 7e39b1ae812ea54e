"""Folders that are replaced as a whole or not at all."""

from pathlib import Path

import pytest

from builder.errors import BuilderError
from builder.work.whole import replace_folder


def write_half(target: Path) -> None:
    with replace_folder(target) as fresh:
        (fresh / "half.pdf").write_text("half")
        raise ZeroDivisionError


def list_all(folder: Path) -> list[str]:
    return sorted(path.relative_to(folder).as_posix() for path in folder.rglob("*"))


def test_the_new_folder_takes_the_old_ones_place(tmp_path: Path) -> None:
    target = tmp_path / "deep" / "cards"
    for name in ("old.pdf", "new.pdf"):
        with replace_folder(target) as fresh:
            (fresh / name).write_text(name)
    assert list_all(tmp_path) == ["deep", "deep/cards", "deep/cards/new.pdf"]


def test_after_an_error_the_old_folder_stands_and_nothing_lies_beside_it(tmp_path: Path) -> None:
    target = tmp_path / "cards"
    with replace_folder(target) as fresh:
        (fresh / "old.pdf").write_text("old")
    with pytest.raises(ZeroDivisionError):
        write_half(target)
    assert list_all(tmp_path) == ["cards", "cards/old.pdf"]


def test_a_place_that_can_not_be_written_is_named_with_a_cure(tmp_path: Path) -> None:
    (tmp_path / "file").write_text("in the way")
    with (
        pytest.raises(BuilderError, match=r"can't be written .*; give a folder"),
        replace_folder(tmp_path / "file" / "cards"),
    ):
        pytest.fail("nothing was opened")
