"""Folders that would hold a reader up: pipes, circles of links, depths, numbers of files."""

import os
import re
import socket
import sys
from pathlib import Path

import pytest

from builder.errors import BuilderError
from builder.input_limits import FOLDER_LEVELS, TEXT_BYTES
from builder.mkdocs_parts import Order
from builder.mkdocs_plugin import build_site
from builder.publishing.site.files import find_own_file_faults
from builder.work.plain_file import TooLargeError, read_plain
from builder.work.tree import EntryKind, walk_tree
from tests.conftest import WriteCourse
from tests.running import run_tool

SETTINGS = "site_name: S\ndocs_dir: content\ntheme: {name: material}\nplugins: [tempoleaf]\n"


def check(root: Path) -> str:
    done = run_tool("check", root)
    assert (done.returncode, done.stderr) == (1, "")
    return done.stdout


@pytest.mark.parametrize(
    "name",
    ["lessons/count/pipe.md", "notices/pipe.md", "pipe.md", "pipe.png", "placement.yml"],
)
def test_a_pipe_is_told_and_nobody_waits_for_it(write_course: WriteCourse, name: str) -> None:
    root = write_course()
    os.mkfifo(root / "content" / name)
    assert re.search(f"^content/{name}:1:1: H116 .*no plain file", check(root), re.MULTILINE)


def test_what_should_be_the_course_file_may_be_a_pipe_too(write_course: WriteCourse) -> None:
    root = write_course({"content/course.yml": None})
    os.mkfifo(root / "content/course.yml")
    done = run_tool("check", root)
    assert done.returncode == 2
    assert "there is no course here" in done.stderr


def test_a_socket_is_no_file_either(write_course: WriteCourse, monkeypatch) -> None:
    root = write_course()
    monkeypatch.chdir(root / "content")  # a socket's path has at most 108 bytes
    with socket.socket(socket.AF_UNIX) as own:
        own.bind("talk.png")
        assert "content/talk.png:1:1: H116" in check(root)


def test_a_table_of_where_people_start_that_is_a_folder_isnt_passed_over(
    write_course: WriteCourse,
) -> None:
    root = write_course()
    (root / "content/placement.yml").mkdir()
    assert "content/placement.yml:1:1: H116 text-unreadable: this is a folder" in check(root)


@pytest.mark.parametrize("target", ["/dev/zero", "/dev/stdin", "/proc/self/mem"])
def test_a_link_to_a_device_is_told_and_not_read(write_course: WriteCourse, target: str) -> None:
    root = write_course()
    (root / "content/lessons/count/endless.md").symlink_to(target)
    assert "content/lessons/count/endless.md:1:1: H116" in check(root)


def test_hidden_links_that_lead_round_in_circles_are_told(write_course: WriteCourse) -> None:
    """The host would walk through two of them in two to the power of forty ways."""
    root = write_course()
    for name in (".one", ".two"):
        (root / "content" / name).symlink_to(".")
    assert "content/.one:1:1: H116 text-unreadable: this folder is a link" in check(root)


def test_a_preview_doesnt_walk_into_them_either(write_course: WriteCourse) -> None:
    root = write_course({"mkdocs.yml": SETTINGS})
    for name in (".one", ".two"):
        (root / "content" / name).symlink_to(".")
    with pytest.raises(BuilderError, match="this folder is a link"):
        build_site(Order(root / "mkdocs.yml", is_preview=True), root / "site")


def test_folders_deep_in_one_another_are_told(write_course: WriteCourse) -> None:
    """A reader that calls itself for each would end in a RecursionError."""
    root = write_course()
    deep = root / "content" / "/".join("d" * 400)
    deep.mkdir(parents=True)
    (deep / "a.md").write_text("# A\n")
    told = f"more than {FOLDER_LEVELS.most}; move it up"
    assert re.search(f"^content(/d)+:1:1: X102 input-too-deep: .*{told}", check(root))


@pytest.mark.skipif(sys.platform != "linux", reason="other systems take text alone for names")
def test_a_name_of_bytes_that_are_no_letters_is_told(write_course: WriteCourse) -> None:
    root = write_course()
    Path(os.fsdecode(os.fsencode(root) + b"/content/mat\xff.txt")).write_text("a")
    (told,) = map(str, find_own_file_faults(root, "content"))
    assert told.startswith("content/mat\\udcff.txt:1:1: H108 id-malformed: the name of this file")


def test_a_walk_names_each_entry_and_follows_no_link(write_course: WriteCourse) -> None:
    root = write_course()
    (root / "content/lessons/more").symlink_to("..")
    entries = [*walk_tree(root, most_levels=2)]
    kinds = {entry.path.relative_to(root).as_posix(): entry.kind for entry in entries}
    assert kinds["content/lessons/more"] is EntryKind.LINK
    assert kinds["content/lessons/count"] is EntryKind.FOLDER
    assert kinds["content/course.yml"] is EntryKind.FILE
    assert "content/lessons/count/long-out.md" not in kinds  # deeper than was asked for


def test_a_file_that_is_larger_than_its_limit_is_not_read(tmp_path: Path) -> None:
    path = tmp_path / "large"
    with path.open("wb") as file:
        file.truncate(1 << 40)
    with pytest.raises(TooLargeError) as caught:
        read_plain(path, TEXT_BYTES.most)
    assert caught.value.size == 1 << 40


def test_a_pipe_is_no_plain_file(tmp_path: Path) -> None:
    os.mkfifo(tmp_path / "pipe")
    with pytest.raises(OSError, match="no plain file"):
        read_plain(tmp_path / "pipe", 10)


def test_a_file_of_the_very_size_is_read(tmp_path: Path) -> None:
    (tmp_path / "a").write_bytes(b"0123456789")
    assert read_plain(tmp_path / "a", 10) == b"0123456789"
