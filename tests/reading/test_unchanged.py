"""Files that change while they are read are noticed, whatever the clock says."""

import os
from pathlib import Path

import pytest

from builder.errors import BuilderError
from builder.reading.unchanged import find_changed, list_states, refuse_changed


@pytest.fixture
def content(tmp_path: Path) -> Path:
    folder = tmp_path / "content"
    (folder / "lessons").mkdir(parents=True)
    (folder / "lessons" / "wide-ribs.md").write_text("old")
    return folder


def write_again(path: Path) -> None:
    """Write the same bytes, with the old time, as a clock that was set back would give it."""
    state = path.stat()
    path.write_text(path.read_text())
    os.utime(path, ns=(state.st_atime_ns, state.st_mtime_ns))


def test_nothing_changed_is_nothing(content: Path) -> None:
    before = list_states(content)
    (content / ".wide-ribs.md.swp").write_text("an editor's own")
    assert find_changed(before, list_states(content)) is None


@pytest.mark.parametrize("change", [Path.unlink, lambda path: path.write_text("new"), write_again])
def test_a_file_that_was_written_or_went_is_named(content: Path, change: object) -> None:
    lesson = content / "lessons" / "wide-ribs.md"
    before = list_states(content)
    assert callable(change)
    change(lesson)
    assert find_changed(before, list_states(content)) == str(lesson)


def test_a_new_file_is_named_with_a_cure(content: Path) -> None:
    before = list_states(content, content.parent / "mkdocs.yml")
    (content.parent / "mkdocs.yml").write_text("site_name: new\n")
    with pytest.raises(BuilderError, match=r"mkdocs.yml\" was changed during the run"):
        refuse_changed(before, content, content.parent / "mkdocs.yml")


def test_a_folder_that_went_has_no_files(content: Path) -> None:
    assert list_states(content / "gone") == {}
