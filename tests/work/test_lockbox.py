"""What is locked opens with its passphrase, whole, and with nothing else."""

import io
import sys
import tarfile
from pathlib import Path

import pytest

from builder.errors import BuilderError
from builder.work.lockbox import lock_folders, unlock_folders

WORDS = "four loud geese sleep"


@pytest.fixture
def folders(tmp_path: Path) -> list[Path]:
    for path, content in {"program/people.csv": b"id\n", "coach/a/b.pdf": b"\0\xff"}.items():
        (tmp_path / path).parent.mkdir(parents=True)
        (tmp_path / path).write_bytes(content)
    return [tmp_path / "program", tmp_path / "coach"]


@pytest.fixture
def locked(folders: list[Path], tmp_path: Path) -> Path:
    pytest.importorskip("pyrage")
    assert lock_folders(folders, tmp_path / "coach.age", WORDS) == 2
    return tmp_path / "coach.age"


def test_what_is_locked_opens_whole(locked: Path, tmp_path: Path) -> None:
    assert b"people" not in locked.read_bytes()
    assert unlock_folders(locked, tmp_path / "open", WORDS) == 2
    assert (tmp_path / "open/program/people.csv").read_bytes() == b"id\n"
    assert (tmp_path / "open/coach/a/b.pdf").read_bytes() == b"\0\xff"
    assert sorted(path.name for path in (tmp_path / "open").iterdir()) == ["coach", "program"]


def test_nothing_is_written_outside_the_folder(tmp_path: Path) -> None:
    pyrage = pytest.importorskip("pyrage")
    with tarfile.open(fileobj=(packed := io.BytesIO()), mode="w") as file:
        for name in ("../out.txt", "in.txt"):
            file.addfile(tarfile.TarInfo(name), io.BytesIO())
    (tmp_path / "a.age").write_bytes(pyrage.passphrase.encrypt(packed.getvalue(), WORDS))
    assert unlock_folders(tmp_path / "a.age", tmp_path / "open/in", WORDS) == 1
    assert [path.name for path in (tmp_path / "open").rglob("*.txt")] == ["in.txt"]


def test_the_file_is_of_the_published_format(locked: Path) -> None:
    """C2SP, age specification, version 1: the first line, and one recipient of type scrypt."""
    lines = locked.read_bytes().split(b"\n")
    assert lines[0] == b"age-encryption.org/v1"
    assert lines[1].startswith(b"-> scrypt ")


def test_an_accent_in_one_sign_or_two_is_the_same(folders: list[Path], tmp_path: Path) -> None:
    pytest.importorskip("pyrage")
    target = tmp_path / "coach.age"
    lock_folders(folders, target, "caf\u00e9 caf\u00e9 caf\u00e9")
    assert unlock_folders(target, tmp_path / "open", "cafe\u0301 cafe\u0301 cafe\u0301") == 2


@pytest.mark.parametrize("change", [b"", b"x"])
def test_a_wrong_passphrase_and_a_damaged_file_open_nothing(
    locked: Path, tmp_path: Path, change: bytes
) -> None:
    locked.write_bytes(locked.read_bytes() + change)
    with pytest.raises(BuilderError, match="doesn't open"):
        unlock_folders(locked, tmp_path / "open", WORDS + ("" if change else "!"))
    assert not (tmp_path / "open").exists()


def test_what_is_there_is_not_written_over(locked: Path, tmp_path: Path) -> None:
    with pytest.raises(BuilderError, match="is there already"):
        unlock_folders(locked, tmp_path / "program", WORDS)


def test_short_passphrases_and_places_inside_are_refused(
    folders: list[Path], tmp_path: Path
) -> None:
    pytest.importorskip("pyrage")
    with pytest.raises(BuilderError, match="fewer than 12"):
        lock_folders(folders, tmp_path / "coach.age", "short")
    with pytest.raises(BuilderError, match="outside"):
        lock_folders(folders, tmp_path / "coach/coach.age", WORDS)


def test_without_the_library_the_way_to_it_is_told(
    folders: list[Path], tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setitem(sys.modules, "pyrage", None)
    with pytest.raises(BuilderError, match=r"pip install \"tempoleaf\[lock\]\""):
        lock_folders(folders, tmp_path / "coach.age", WORDS)
