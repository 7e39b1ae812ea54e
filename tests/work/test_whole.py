"""Folders that are replaced as a whole or not at all."""

from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

import pytest

from builder.errors import BuilderError
from builder.work.whole import MARK, add_whole, mark_folder, replace_folder


def write_half(target: Path) -> None:
    with replace_folder(target) as fresh:
        (fresh / "half.pdf").write_text("half")
        raise ZeroDivisionError


def meet_trouble(target: Path) -> None:
    with replace_folder(target) as fresh:
        (fresh.parent / "old").write_text("in the way of the move")


def list_all(folder: Path) -> list[str]:
    return sorted(path.relative_to(folder).as_posix() for path in folder.rglob("*"))


def test_the_new_folder_takes_the_old_ones_place(tmp_path: Path) -> None:
    target = tmp_path / "deep" / "cards"
    for name in ("old.pdf", "new.pdf"):
        with replace_folder(target) as fresh:
            (fresh / name).write_text(name)
    assert list_all(tmp_path) == [
        "deep",
        "deep/cards",
        "deep/cards/.tempoleaf",
        "deep/cards/new.pdf",
    ]


def test_after_an_error_the_old_folder_stands_and_nothing_lies_beside_it(tmp_path: Path) -> None:
    target = tmp_path / "cards"
    with replace_folder(target) as fresh:
        (fresh / "old.pdf").write_text("old")
    with pytest.raises(ZeroDivisionError):
        write_half(target)
    assert list_all(tmp_path) == ["cards", "cards/.tempoleaf", "cards/old.pdf"]


def test_a_place_that_can_not_be_written_is_named_with_a_cure(tmp_path: Path) -> None:
    (tmp_path / "file").write_text("in the way")
    with (
        pytest.raises(BuilderError, match=r"can't be written .*; give a folder"),
        replace_folder(tmp_path / "file" / "cards"),
    ):
        pytest.fail("nothing was opened")


def test_files_that_the_tool_did_not_make_are_never_replaced(tmp_path: Path) -> None:
    (tmp_path / "thesis.txt").write_text("years of work")
    with pytest.raises(BuilderError, match="did not make"), replace_folder(tmp_path):
        pytest.fail("nothing was opened")
    assert list_all(tmp_path) == ["thesis.txt"]


@pytest.mark.parametrize("is_link", [True, False])
def test_a_file_or_a_link_in_the_way_is_refused(tmp_path: Path, *, is_link: bool) -> None:
    target = tmp_path / "site"
    if is_link:
        target.symlink_to(tmp_path, target_is_directory=True)
    else:
        target.write_text("mine")
    with pytest.raises(BuilderError, match="is no folder"), replace_folder(target):
        pytest.fail("nothing was opened")
    assert target.is_symlink() is is_link


def test_an_empty_folder_is_taken(tmp_path: Path) -> None:
    with replace_folder(tmp_path / "site") as fresh:
        (fresh / "x").write_text("x")
    (tmp_path / "empty").mkdir()
    with replace_folder(tmp_path / "empty") as fresh:
        (fresh / "y").write_text("y")
    assert (tmp_path / "empty" / "y").exists()


def test_a_move_that_fails_puts_the_old_folder_back(tmp_path: Path) -> None:
    target = tmp_path / "cards"
    with replace_folder(target) as fresh:
        (fresh / "old.pdf").write_text("old")
    with pytest.raises(BuilderError, match="can't be written"):
        meet_trouble(target)
    assert (target / "old.pdf").read_text() == "old"


def test_another_run_that_is_at_work_is_left_alone(tmp_path: Path) -> None:
    target = tmp_path / "cards"
    with replace_folder(target) as first:
        (first / "first.pdf").write_text("first")
        with replace_folder(target) as second:
            (second / "second.pdf").write_text("second")
    assert (target / "first.pdf").read_text() == "first"
    assert [path.name for path in tmp_path.iterdir()] == ["cards"]


def test_what_a_killed_run_left_of_the_same_folder_goes_and_comes_back(tmp_path: Path) -> None:
    for name in (".cards-aaaaaaaa", ".other-aaaaaaaa"):
        (tmp_path / name / "old").mkdir(parents=True)
        mark_folder(tmp_path / name / "old")
    with replace_folder(tmp_path / "cards"):
        assert (tmp_path / "cards" / MARK).is_file()
    assert list_all(tmp_path) == [
        *(".other-aaaaaaaa", ".other-aaaaaaaa/old", f".other-aaaaaaaa/old/{MARK}"),
        *("cards", f"cards/{MARK}"),
    ]


def test_whoever_replaces_a_folder_at_the_same_time_succeeds(tmp_path: Path) -> None:
    target = tmp_path / "site"

    def replace(number: int) -> None:
        with replace_folder(target) as fresh:
            for name in ("one.txt", "two.txt"):
                (fresh / name).write_text(str(number))

    with ThreadPoolExecutor(8) as pool:
        list(pool.map(replace, range(200)))
    assert (target / "one.txt").read_text() == (target / "two.txt").read_text()
    assert list_all(tmp_path) == ["site", "site/.tempoleaf", "site/one.txt", "site/two.txt"]


def test_a_file_is_added_only_where_none_stands(tmp_path: Path) -> None:
    path = tmp_path / "class.yml"
    assert add_whole(path, "mine\n")
    assert not add_whole(path, "theirs\n")
    assert path.read_text(encoding="utf-8") == "mine\n"
    path.unlink()
    path.symlink_to(tmp_path / "nowhere")
    assert not add_whole(path, "theirs\n")
    assert [each.name for each in tmp_path.iterdir()] == ["class.yml"]
