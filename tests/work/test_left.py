"""What killed runs left is told from what others have in work, and goes."""

import os
import subprocess
import sys
from pathlib import Path
from tempfile import gettempdir

import pytest

from builder.work.left import make_beside, make_scratch, mend_folders
from builder.work.whole import work_beside, write_whole

pytestmark = pytest.mark.skipif(sys.platform == "win32", reason="folders can't be locked there")


@pytest.fixture
def scratch_place(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Give the folder in which folders for a run are made."""
    monkeypatch.setattr("tempfile.tempdir", str(tmp_path))
    assert gettempdir() == str(tmp_path)
    return tmp_path


def write_half(target: Path) -> None:
    with work_beside(target) as folder:
        (folder / "draft.zip").write_text("half")
        raise ZeroDivisionError


def list_names(folder: Path) -> list[str]:
    return sorted(path.name for path in folder.iterdir())


def test_a_folder_for_a_run_that_nobody_holds_goes_and_one_in_work_stays(
    scratch_place: Path,
) -> None:
    (scratch_place / "tempoleaf-run-abcdefgh" / "cards").mkdir(parents=True)
    (scratch_place / "tempoleaf-notes").mkdir()
    first = make_scratch()
    second = make_scratch()
    expected = ["tempoleaf-notes", *sorted(Path(each.name).name for each in (first, second))]
    assert list_names(scratch_place) == expected
    for each in (first, second):
        each.cleanup()
    assert list_names(scratch_place) == ["tempoleaf-notes"]


def test_a_link_in_place_of_a_folder_for_a_run_is_left_alone(scratch_place: Path) -> None:
    (scratch_place / "mine").mkdir()
    (scratch_place / "mine" / "letter.txt").write_text("mine")
    (scratch_place / "tempoleaf-run-abcdefgh").symlink_to(scratch_place / "mine")
    make_scratch().cleanup()
    assert (scratch_place / "mine" / "letter.txt").read_text() == "mine"


@pytest.mark.skipif(not hasattr(os, "getuid") or os.getuid() != 0, reason="only root gives away")
def test_the_folder_of_another_user_is_left_alone(scratch_place: Path) -> None:
    other = scratch_place / "tempoleaf-run-abcdefgh"
    other.mkdir()
    os.chown(other, 12345, 12345)
    make_scratch().cleanup()
    assert other.is_dir()


def test_an_empty_folder_beside_a_place_goes_unless_it_is_held(tmp_path: Path) -> None:
    (tmp_path / ".site-abcdefgh").mkdir()
    with make_beside(tmp_path / "site") as beside:
        mend_folders(tmp_path, "site")
        assert list_names(tmp_path) == [beside.name]
    mend_folders(tmp_path, "site")
    assert list_names(tmp_path) == []


def test_what_a_killed_writer_of_one_file_left_goes_with_the_next(tmp_path: Path) -> None:
    path = tmp_path / "releases.yml"
    killed = (
        "import os, signal, sys; from pathlib import Path\n"
        "from builder.work.whole import work_beside\n"
        "with work_beside(Path(sys.argv[1])) as folder:\n"
        "    (folder / 'half').write_text('half'); os.kill(os.getpid(), signal.SIGKILL)\n"
    )
    subprocess.run([sys.executable, "-c", killed, str(path)], check=False)
    assert len(list_names(tmp_path)) == 1
    write_whole(path, "whole")
    assert list_names(tmp_path) == ["releases.yml"]
    assert path.read_text() == "whole"


def test_a_folder_beside_a_file_goes_with_all_in_it_after_an_error(tmp_path: Path) -> None:
    with pytest.raises(ZeroDivisionError):
        write_half(tmp_path / "course.zip")
    assert list_names(tmp_path) == []
