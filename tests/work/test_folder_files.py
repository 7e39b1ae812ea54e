"""The files of a folder, each read once."""

import hashlib
import os
from pathlib import Path

from builder.work.folder_files import FolderFiles


def hash_bytes(content: bytes) -> str:
    return hashlib.sha256(content).hexdigest()


def test_files_come_folder_by_folder_as_paths_are_ordered(tmp_path: Path) -> None:
    for name in ("a-b/c", "a/z", "a/b/c", "a.txt", ".hidden"):
        (tmp_path / name).parent.mkdir(parents=True, exist_ok=True)
        (tmp_path / name).touch()
    found = sorted(path for path in tmp_path.rglob("*") if path.is_file())
    names = tuple(path.relative_to(tmp_path).as_posix() for path in found)
    assert FolderFiles(tmp_path).list_names() == names


def test_links_to_files_count_and_links_to_folders_and_to_nothing_do_not(tmp_path: Path) -> None:
    (tmp_path / "in").mkdir()
    (tmp_path / "in/file").touch()
    (tmp_path / "folder").symlink_to(tmp_path / "in")
    (tmp_path / "linked").symlink_to(tmp_path / "in/file")
    (tmp_path / "nowhere").symlink_to(tmp_path / "nothing")
    assert FolderFiles(tmp_path).list_names() == ("in/file", "linked")


def test_a_file_that_was_written_anew_is_read_anew(tmp_path: Path) -> None:
    """Even where it has the time and the size of the one before, as another file has its place."""
    files, path = FolderFiles(tmp_path), tmp_path / "page"
    path.write_bytes(b"one")
    before = path.stat().st_mtime_ns
    assert files.digest("page") == hash_bytes(b"one")
    (tmp_path / "new").write_bytes(b"two")
    os.utime(tmp_path / "new", ns=(before, before))
    (tmp_path / "new").replace(path)
    assert files.digest("page") == hash_bytes(b"two")
    path.write_bytes(b"three")
    assert files.digest("page") == hash_bytes(b"three")
