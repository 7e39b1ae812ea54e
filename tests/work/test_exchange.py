"""Folders that change places in one step."""

import sys
from pathlib import Path

import pytest

from builder.work.exchange import exchange


@pytest.mark.skipif(sys.platform != "linux", reason="only Linux is asked to")
def test_two_folders_change_places(tmp_path: Path) -> None:
    for name in ("old", "new"):
        (tmp_path / name).mkdir()
        (tmp_path / name / "page.html").write_text(name)
    if not exchange(tmp_path / "old", tmp_path / "new"):
        pytest.skip("this disk can't do it")
    assert (tmp_path / "old" / "page.html").read_text() == "new"
    assert (tmp_path / "new" / "page.html").read_text() == "old"


def test_where_one_is_missing_nothing_happens(tmp_path: Path) -> None:
    (tmp_path / "new").mkdir()
    assert not exchange(tmp_path / "new", tmp_path / "old")
    assert [path.name for path in tmp_path.iterdir()] == ["new"]
