"""The digest of a content folder: everything in it counts, and what can't be told has none."""

import os

import pytest

from builder.reading.folder_state import digest_folder


def test_names_bytes_and_empty_folders_count(tmp_path):
    (tmp_path / "lessons").mkdir()
    seen = {digest_folder(tmp_path)}
    for path, content in {"a.md": b"", "lessons/a.md": b"", ".hidden": b"x"}.items():
        (tmp_path / path).write_bytes(content)
        seen.add(digest_folder(tmp_path))
    (tmp_path / ".hidden").write_bytes(b"y")
    seen.add(digest_folder(tmp_path))
    (tmp_path / "empty").mkdir()
    seen.add(digest_folder(tmp_path))
    assert len(seen) == 6


def test_the_same_bytes_at_another_time_are_the_same(tmp_path):
    path = tmp_path / "a.md"
    path.write_text("one")
    before = digest_folder(tmp_path)
    os.utime(path, (1, 1))
    assert digest_folder(tmp_path) == before


def test_other_bytes_of_the_same_size_and_time_are_others(tmp_path):
    path = tmp_path / "a.md"
    path.write_text("one")
    told = path.stat()
    before = digest_folder(tmp_path)
    path.write_text("two")
    os.utime(path, ns=(told.st_atime_ns, told.st_mtime_ns))
    assert digest_folder(tmp_path) != before


@pytest.mark.parametrize("kind", ["link", "circle", "pipe", "missing"])
def test_what_is_no_plain_file_has_no_digest(tmp_path, kind):
    folder = tmp_path / "content"
    if kind != "missing":
        folder.mkdir()
    if kind == "link":
        (folder / "a.md").symlink_to(tmp_path)
    elif kind == "circle":
        (folder / "a.md").symlink_to(folder / "a.md")
    elif kind == "pipe":
        os.mkfifo(folder / "a.md")
    assert digest_folder(folder) is None
