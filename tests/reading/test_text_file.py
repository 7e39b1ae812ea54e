"""Files are read as plain text of the course, or refused with place and cure."""

import os
from pathlib import Path

import pytest

from builder.input_limits import TEXT_BYTES
from builder.reading.text_file import read_text


def told(root: Path, name: str = "a.md") -> list[str]:
    text, findings = read_text(root, root / name)
    assert text is None
    return [str(finding) for finding in findings]


def test_a_pipe_is_refused_and_never_waited_for(tmp_path: Path) -> None:
    os.mkfifo(tmp_path / "a.md")
    assert told(tmp_path) == [
        "a.md:1:1: H116 text-unreadable: this is no plain file, not text; "
        "take it away, or put a text file here."
    ]


def test_a_folder_named_like_a_file_is_refused(tmp_path: Path) -> None:
    (tmp_path / "a.md").mkdir()
    assert "this is a folder, not text" in told(tmp_path)[0]


def test_a_link_in_a_circle_is_refused(tmp_path: Path) -> None:
    (tmp_path / "a.md").symlink_to("a.md")
    assert told(tmp_path) == [
        "a.md:1:1: H116 text-unreadable: this link leads round in a circle; "
        "put the file itself here."
    ]


def test_a_file_that_is_too_large_is_refused_unread(tmp_path: Path) -> None:
    with (tmp_path / "a.md").open("wb") as file:
        file.truncate(1 << 40)
    assert f"more than {TEXT_BYTES.most}; split or shorten it." in told(tmp_path)[0]


@pytest.mark.parametrize(
    "sign",
    ["\x00", "\x07", "\x1b", "\x7f", "\x85", "\u200b", "\u2028", "\u202e", "\u2066", "\ufffd"],
)
def test_a_sign_that_nobody_sees_is_told_with_its_place(tmp_path: Path, sign: str) -> None:
    (tmp_path / "a.md").write_text(f"first\nse{sign}cond\n", encoding="utf-8")
    assert told(tmp_path) == [
        f"a.md:2:3: H116 text-unreadable: a sign that can't be seen or printed "
        f"(U+{ord(sign):04X}) stands here; delete it, and type the words around it again."
    ]


@pytest.mark.parametrize(
    "text", ["tab\there", "שלום", "\U0001f9d8\u200d\u2642", "e\u0301", "soft\u00adhyphen", "\u200f"]
)
def test_signs_that_scripts_need_are_left_alone(tmp_path: Path, text: str) -> None:
    (tmp_path / "a.md").write_text(text, encoding="utf-8")
    assert read_text(tmp_path, tmp_path / "a.md") == (text, [])
