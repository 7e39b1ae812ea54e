"""Files that are replaced as a whole, by one writer at a time."""

from pathlib import Path

import pytest

from builder.work.whole import write_whole_bytes


def test_the_new_bytes_take_the_old_ones_place_and_nothing_lies_beside_them(tmp_path: Path) -> None:
    path = tmp_path / "rows.csv"
    for content in (b"", b"a\r\n\xff", b"b"):
        write_whole_bytes(path, content)
        assert path.read_bytes() == content
    assert list(tmp_path.iterdir()) == [path]


def test_what_a_killed_writer_left_is_cleared_away(tmp_path: Path) -> None:
    (tmp_path / ".rows.csv.new").symlink_to(tmp_path / "elsewhere")
    write_whole_bytes(tmp_path / "rows.csv", b"a")
    assert [path.name for path in tmp_path.iterdir()] == ["rows.csv"]


def test_after_an_error_the_old_file_stands(tmp_path: Path) -> None:
    path = tmp_path / "rows"
    path.mkdir()
    with pytest.raises(OSError, match="irectory"):
        write_whole_bytes(path, b"a")
    assert [each.name for each in tmp_path.iterdir()] == ["rows"]
