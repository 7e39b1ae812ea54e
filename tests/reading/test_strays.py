"""Nothing in the content folder is passed over in silence: a lost caution says nothing."""

from pathlib import Path

import pytest

from builder.reading.course_folder import read_course
from builder.reading.strays import find_strays

NOTICE = "content/notices/holding.md"


def findings_of(root: Path) -> list[str]:
    return [str(finding) for finding in read_course(root).findings]


@pytest.mark.parametrize(
    "name", ["notices/holding.MD", "notices/holding.txt", "lessons/breath/a.md.bak", "lessons/a"]
)
def test_a_file_that_nobody_reads_is_told(write_course, name: str) -> None:
    root = write_course({f"content/{name}": "---\n---\n"})
    bare = name.rpartition("/")[2]
    assert findings_of(root) == [
        f'content/{name}:1:1: H115 file-misplaced: nobody reads "{bare}", because its name '
        "doesn't end in .md; give it that ending, or take it away."
    ]


@pytest.mark.parametrize(
    "name", ["people.csv", "program/Results.CSV", "attendance (1).xlsx", "lessons/people-old.tsv"]
)
def test_records_of_people_in_what_is_published_are_told(write_course, name: str) -> None:
    root = write_course({f"content/{name}": "id\n"})
    assert findings_of(root) == [
        f'content/{name}:1:1: H115 file-misplaced: "{Path(name).name}" looks like records of '
        "people, and all that lies here is published; move it out, into a program folder beside "
        "content/."
    ]


def test_other_tables_may_be_published(write_course) -> None:
    assert findings_of(write_course({"content/peoples-songs.csv": "a\n"})) == []


def test_a_notice_deeper_than_its_folder_is_told(write_course) -> None:
    root = write_course()
    (root / "content/notices/old").mkdir()
    (root / NOTICE).rename(root / "content/notices/old/holding.md")
    assert findings_of(root) == [
        'content/notices/old/holding.md:1:1: H115 file-misplaced: nobody reads "holding.md", '
        "because it lies deeper than notices/; move it up into notices/."
    ]


@pytest.mark.parametrize("folder", ["lessons/breath", "notices"])
def test_a_folder_that_is_a_link_is_told(write_course, folder: str) -> None:
    root = write_course()
    place = root / "content" / folder
    place.rename(root / "moved")
    place.symlink_to(root / "moved", target_is_directory=True)
    assert (
        f"content/{folder}:1:1: H116 text-unreadable: this folder is a link, and what is behind "
        "it isn't read; put the folder itself here."
    ) in findings_of(root)


def test_what_systems_leave_behind_is_no_stray(write_course) -> None:
    junk = ["notices/.DS_Store", "lessons/Thumbs.db", "lessons/breath/desktop.ini", ".old/x.md"]
    root = write_course({f"content/{name}": "" for name in junk})
    assert find_strays(root, root / "content") == ()


def test_a_folder_that_cannot_be_opened_is_told(tmp_path: Path) -> None:
    assert [str(finding) for finding in find_strays(tmp_path, tmp_path / "content")] == [
        "content:1:1: H116 text-unreadable: the folder can't be opened "
        "(No such file or directory); check that it may be read."
    ]
