"""What is locked opens with its passphrase, whole, and with nothing else."""

import io
import os
import re
import stat
import subprocess
import sys
import tarfile
from pathlib import Path

import pytest

from builder.errors import BuilderError
from builder.work.lockbox import MOST_BYTES, lock_folders, unlock_folders

WORDS = "four loud geese sleep"


def write_folders(root: Path) -> list[Path]:
    for path, content in {"program/people.csv": b"id\n", "coach/a/b.pdf": b"\0\xff"}.items():
        (root / path).parent.mkdir(parents=True)
        (root / path).write_bytes(content)
    return [root / "program", root / "coach"]


@pytest.fixture
def folders(tmp_path: Path) -> list[Path]:
    return write_folders(tmp_path)


@pytest.fixture(scope="module")
def box(tmp_path_factory: pytest.TempPathFactory) -> bytes:
    """Lock once: turning a passphrase into a key takes a second, and is meant to."""
    pytest.importorskip("pyrage")
    root = tmp_path_factory.mktemp("box")
    assert lock_folders(write_folders(root), root / "coach.age", WORDS) == 2
    return (root / "coach.age").read_bytes()


@pytest.fixture
def locked(box: bytes, folders: list[Path], tmp_path: Path) -> Path:
    (tmp_path / "coach.age").write_bytes(box)
    (tmp_path / "coach.age").chmod(0o600)
    return tmp_path / "coach.age"


def test_what_is_locked_opens_whole(locked: Path, tmp_path: Path) -> None:
    assert b"people" not in locked.read_bytes()
    assert unlock_folders(locked, tmp_path / "open", WORDS) == 2
    assert (tmp_path / "open/program/people.csv").read_bytes() == b"id\n"
    assert (tmp_path / "open/coach/a/b.pdf").read_bytes() == b"\0\xff"
    assert sorted(path.name for path in (tmp_path / "open").iterdir()) == ["coach", "program"]


@pytest.mark.parametrize(
    ("name", "kind"),
    [
        ("../out.txt", tarfile.REGTYPE),
        ("/tmp/out.txt", tarfile.REGTYPE),  # noqa: S108  # is refused
        ("link", tarfile.SYMTYPE),
    ],
)
def test_what_is_no_plain_file_inside_opens_nothing(tmp_path: Path, name: str, kind: bytes) -> None:
    pyrage = pytest.importorskip("pyrage")
    with tarfile.open(fileobj=(packed := io.BytesIO()), mode="w") as file:
        file.addfile(tarfile.TarInfo("in.txt"), io.BytesIO())
        member = tarfile.TarInfo(name)
        member.type, member.linkname = kind, str(tmp_path)
        file.addfile(member, io.BytesIO())
    (tmp_path / "a.age").write_bytes(pyrage.passphrase.encrypt(packed.getvalue(), WORDS))
    with pytest.raises(BuilderError, match="is no plain file in it"):
        unlock_folders(tmp_path / "a.age", tmp_path / "open/in", WORDS)
    assert list((tmp_path / "open").iterdir()) == []


def test_only_this_account_may_look_into_what_is_opened(locked: Path, tmp_path: Path) -> None:
    if sys.platform == "win32":
        pytest.skip("has no such rights")
    unlock_folders(locked, tmp_path / "open", WORDS)
    assert stat.S_IMODE((tmp_path / "open").stat().st_mode) == 0o700
    assert stat.S_IMODE((tmp_path / "open/program/people.csv").stat().st_mode) == 0o600


def test_open_files_that_a_killed_run_left_beside_are_taken_away(
    locked: Path, tmp_path: Path
) -> None:
    for path in (".open-1a2b/fresh/people.csv", ".open-notes/fresh/mine.txt", ".open-notes/a.txt"):
        (tmp_path / path).parent.mkdir(parents=True, exist_ok=True)
        (tmp_path / path).write_text("Ada")
    unlock_folders(locked, tmp_path / "open", WORDS)
    assert not (tmp_path / ".open-1a2b").exists()
    assert (tmp_path / ".open-notes/fresh/mine.txt").exists()  # is somebody's own


def test_links_are_packed_as_files_or_refused_and_never_left_out(
    folders: list[Path], tmp_path: Path
) -> None:
    pytest.importorskip("pyrage")
    (tmp_path / "program/linked.csv").symlink_to(tmp_path / "coach/a/b.pdf")
    assert lock_folders(folders, tmp_path / "coach.age", WORDS) == 3
    assert stat.S_IMODE((tmp_path / "coach.age").stat().st_mode) == 0o600
    (tmp_path / "program/plans").symlink_to(tmp_path / "coach/a")
    with pytest.raises(BuilderError, match="is a link to a folder"):
        lock_folders(folders, tmp_path / "coach.age", WORDS)
    (tmp_path / "other/coach").mkdir(parents=True)
    with pytest.raises(BuilderError, match='two folders are called "coach"'):
        lock_folders([tmp_path / "coach", tmp_path / "other/coach"], tmp_path / "c.age", WORDS)


def test_more_than_memory_may_hold_is_refused(folders: list[Path], tmp_path: Path) -> None:
    pytest.importorskip("pyrage")
    with (tmp_path / "coach/film.mp4").open("wb") as file:
        file.truncate(MOST_BYTES)  # takes no room on the disk
    with pytest.raises(BuilderError, match="more than 500000000"):
        lock_folders(folders, tmp_path / "coach.age", WORDS)
    assert not (tmp_path / "coach.age").exists()


@pytest.mark.parametrize("command", ["lock", "unlock"])
def test_when_the_disk_is_full_nothing_half_is_left(locked: Path, command: str) -> None:
    """A limit on the size of files stands for the disk."""
    resource = pytest.importorskip("resource")
    project, old = locked.parent, locked.read_bytes()
    (project / "program/classes").mkdir()
    words = ["--project", str(project)] if command == "lock" else [str(locked), str(project / "o")]
    done = subprocess.run(
        [sys.executable, "-c", "from builder.cli.app import main; main()", command, *words],
        env=os.environ | {"TEMPOLEAF_PASSPHRASE": WORDS},
        capture_output=True,
        text=True,
        check=False,
        preexec_fn=lambda: resource.setrlimit(resource.RLIMIT_FSIZE, (2, 2)),
    )
    assert done.returncode == 2, done.stderr
    assert "File too large" in done.stderr
    assert locked.read_bytes() == old
    assert sorted(path.name for path in project.iterdir()) == ["coach", "coach.age", "program"]


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


@pytest.mark.parametrize("passphrase", [f"{WORDS}!", ""])
def test_a_wrong_passphrase_opens_nothing(locked: Path, tmp_path: Path, passphrase: str) -> None:
    with pytest.raises(BuilderError, match="doesn't open"):
        unlock_folders(locked, tmp_path / "open", passphrase)
    assert not (tmp_path / "open").exists()


@pytest.mark.parametrize(
    ("old", "new"),
    [
        (rb".{20}\Z", b""),
        (rb".\Z", b"?"),
        (rb"\A.*\Z", b""),
        (rb"(scrypt \S+) \d+", rb"\1 30"),
    ],
)
def test_a_damaged_file_opens_nothing(locked: Path, tmp_path: Path, old: bytes, new: bytes) -> None:
    """Cut short, changed, empty, or asking for hours of work."""
    locked.write_bytes(re.sub(old, new, locked.read_bytes(), count=1, flags=re.DOTALL))
    with pytest.raises(BuilderError, match="doesn't open"):
        unlock_folders(locked, tmp_path / "open", WORDS)
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
