import os
from pathlib import Path

import pytest

from builder.errors import BuilderError
from builder.starting.folder import fill_whole, refuse_unsuitable, write_files

FILES = {"content/a.md": b"a", ".hidden/b": b"b", "c": b"c"}


def held(folder: Path) -> set[str]:
    return {path.relative_to(folder).as_posix() for path in folder.rglob("*") if path.is_file()}


def fill_and_stop(target: Path, stop: BaseException) -> None:
    with fill_whole(target) as folder:
        write_files(folder, FILES)
        raise stop


def fill_while_another_writes(target: Path) -> None:
    with fill_whole(target) as folder:
        write_files(folder, FILES)
        (target / "content").mkdir()
        (target / "content" / "mine.md").write_text("mine")


def test_a_new_folder_comes_into_being_with_everything(tmp_path: Path) -> None:
    target = tmp_path / "Café – Übung"
    with fill_whole(target) as folder:
        write_files(folder, FILES)
        assert not target.exists()
    assert held(tmp_path) == {f"Café – Übung/{path}" for path in FILES}


def test_a_new_folder_may_be_read_by_whom_the_system_lets(tmp_path: Path) -> None:
    (tmp_path / "usual").mkdir()
    with fill_whole(tmp_path / "new"):
        pass
    assert (tmp_path / "new").stat().st_mode == (tmp_path / "usual").stat().st_mode


def test_an_empty_folder_is_filled_and_stays_the_same_folder(tmp_path: Path) -> None:
    target = tmp_path / "empty"
    (target / ".git").mkdir(parents=True)
    (target / ".DS_Store").write_bytes(b"x")
    number = target.stat().st_ino
    with fill_whole(target) as folder:
        write_files(folder, FILES)
    assert target.stat().st_ino == number
    assert held(target) == {*FILES, ".DS_Store"}


@pytest.mark.parametrize("existed", [True, False])
@pytest.mark.parametrize("stop", [KeyboardInterrupt(), BuilderError("a", "b"), OSError(28, "full")])
def test_a_stop_leaves_nothing_behind(tmp_path: Path, existed: bool, stop: BaseException) -> None:
    target = tmp_path / "course"
    if existed:
        target.mkdir()
    expected = KeyboardInterrupt if isinstance(stop, KeyboardInterrupt) else BuilderError
    with pytest.raises(expected):
        fill_and_stop(target, stop)
    assert [path.name for path in tmp_path.rglob("*")] == (["course"] if existed else [])


def test_a_file_that_came_meanwhile_is_kept_and_everything_else_taken_back(tmp_path: Path) -> None:
    target = tmp_path / "course"
    target.mkdir()
    with pytest.raises(BuilderError, match="has come into being"):
        fill_while_another_writes(target)
    assert held(target) == {"content/mine.md"}


def test_a_folder_that_holds_something_is_refused(tmp_path: Path) -> None:
    for name in ("b.txt", "a.txt", "c.txt"):
        (tmp_path / name).write_text("mine")
    with pytest.raises(BuilderError, match=r'not empty: it holds "a\.txt" and 2 more'):
        refuse_unsuitable(tmp_path)


def test_a_file_is_no_folder(tmp_path: Path) -> None:
    (tmp_path / "file").write_text("mine")
    with pytest.raises(BuilderError, match="is a file"):
        refuse_unsuitable(tmp_path / "file")


@pytest.mark.parametrize(
    "name",
    ["con", "AUX", "nul.txt", "Com1", "lpt9.x.y", "a:b", "<b>", "a*", "dot.", "space ", "a\nb"],
)
def test_a_name_that_some_computer_refuses_is_refused(tmp_path: Path, name: str) -> None:
    # Microsoft, "Naming Files, Paths, and Namespaces": reserved names, characters and endings.
    with pytest.raises(BuilderError, match="can't be the name of a folder"):
        refuse_unsuitable(tmp_path / name)


@pytest.mark.parametrize("name", ["console", "com", "my course", "été", "a.b", "🫁"])
def test_other_names_will_do(tmp_path: Path, name: str) -> None:
    refuse_unsuitable(tmp_path / name)


def test_a_folder_in_no_folder_is_refused(tmp_path: Path) -> None:
    with pytest.raises(BuilderError, match="there is no folder"):
        refuse_unsuitable(tmp_path / "a" / "b")


def test_a_name_that_is_too_long_is_refused(tmp_path: Path) -> None:
    with pytest.raises(BuilderError, match="can't be made"):
        refuse_unsuitable(tmp_path / ("a" * 300))


def test_a_place_that_can_not_be_written_is_refused(tmp_path: Path) -> None:
    tmp_path.chmod(0o500)
    place = Path("/proc") / "new" if os.access(tmp_path, os.W_OK) else tmp_path / "new"
    with pytest.raises(BuilderError, match="can't be made"), fill_whole(place):
        pass
    tmp_path.chmod(0o700)
