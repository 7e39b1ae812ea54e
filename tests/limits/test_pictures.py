"""Pictures and other own files that claim or have more than the tool takes."""

import struct
import zlib
from io import BytesIO
from pathlib import Path

import pytest
from PIL import Image

from builder.input_limits import OWN_FILE_BYTES, PICTURE_BYTES
from builder.publishing.proof.privacy.pictures import count_dots, list_picture_texts
from builder.publishing.site.files import find_own_file_faults
from tests.conftest import WriteCourse


def make_png(width: int, height: int, *more: bytes) -> bytes:
    """Make a small file that claims to be a large picture (PNG, ISO/IEC 15948, 11.2)."""
    head = struct.pack(">IIBBBBB", width, height, 8, 0, 0, 0, 0)
    dots = make_chunk(b"IDAT", zlib.compress(b"\0" * 1000))
    parts = (make_chunk(b"IHDR", head), *more, dots, make_chunk(b"IEND", b""))
    return b"\x89PNG\r\n\x1a\n" + b"".join(parts)


def make_chunk(kind: bytes, content: bytes) -> bytes:
    check = struct.pack(">I", zlib.crc32(kind + content))
    return struct.pack(">I", len(content)) + kind + content + check


def find(root: Path) -> list[str]:
    return [str(finding) for finding in find_own_file_faults(root, "content")]


@pytest.mark.parametrize("side", [50_000, 12_000, 9_000])
def test_a_picture_of_too_many_dots_is_told_by_its_head_alone(
    write_course: WriteCourse, side: int
) -> None:
    """The picture library warns from 89 million dots and raises from 179 million; we ask first."""
    root = write_course()
    (root / "content/huge.png").write_bytes(make_png(side, side))
    assert find(root) == [
        f"content/huge.png:1:1: X101 input-too-large: the picture has {side * side} dots, "
        "more than 64000000; save it smaller."
    ]


def test_what_a_telephone_makes_is_small_enough(write_course: WriteCourse) -> None:
    root = write_course()
    (root / "content/fine.png").write_bytes(make_png(8000, 6000))
    assert find(root) == []


def test_other_kinds_are_asked_as_well() -> None:
    target = BytesIO()
    Image.new("1", (30, 20)).save(target, "GIF")
    huge = target.getvalue().replace(struct.pack("<HH", 30, 20), struct.pack("<HH", 60_000, 60_000))
    assert count_dots(target.getvalue()) == 600
    assert count_dots(huge) == 3_600_000_000


def test_what_is_no_picture_has_no_dots() -> None:
    assert count_dots(b"no picture") == 0
    assert count_dots(b"\x89PNG and nothing more") == 0


def test_the_words_of_a_picture_don_t_unpack_without_end() -> None:
    bomb = make_chunk(b"zTXt", b"a\0\0" + zlib.compress(b"a" * 80_000_000, 9))
    # Nothing of it is read: in a process that prints, the library gives an empty text instead.
    assert {piece.text for piece in list_picture_texts(make_png(10, 10, bomb))} <= {"a "}
    assert list(list_picture_texts(make_png(50_000, 50_000))) == []


@pytest.mark.parametrize(
    ("name", "most"), [("a.jpg", PICTURE_BYTES), ("a.mp4", OWN_FILE_BYTES), ("a.x", OWN_FILE_BYTES)]
)
def test_a_file_larger_than_a_host_takes_is_told_unread(
    write_course: WriteCourse, name: str, most
) -> None:
    root = write_course()
    with (root / "content" / name).open("wb") as file:
        file.truncate(1 << 40)
    assert find(root) == [
        f"content/{name}:1:1: X101 input-too-large: the file has {1 << 40} bytes, "
        f"more than {most.most}; save it smaller."
    ]
