"""What a picture file is made of: by its first bytes, and part by part up to its last one."""

import struct
from collections.abc import Callable, Iterator, Mapping

_PNG_START = b"\x89PNG\r\n\x1a\n"
_PNG_PARTS = frozenset(
    b"IHDR PLTE IDAT IEND tRNS gAMA cHRM sRGB iCCP sBIT bKGD pHYs cICP acTL fcTL fdAT".split()
)
"""Parts of the PNG specification (third edition, W3C) that say how dots look, and nothing more."""
_JPEG_START = b"\xff\xd8\xff"
_JPEG_BARE = frozenset({0x01, *range(0xD0, 0xD8)})
"""Markers without a length (ITU-T T.81, table B.1)."""
_JPEG_END, _JPEG_SCAN = 0xD9, 0xDA
_JPEG_PARTS = frozenset({0xC4, 0xDB, 0xDD, _JPEG_SCAN, *range(0xC0, 0xD0)} - {0xC8})
_JPEG_TOLD = {0xE0: b"JFIF\0", 0xE2: b"ICC_PROFILE\0", 0xEE: b"Adobe"}
"""Parts of programs that say how colours are meant (JFIF 1.02, ICC.1, and Adobe's, from memory)."""
_WEBP_PARTS = frozenset({b"VP8 ", b"VP8L", b"VP8X", b"ALPH", b"ICCP", b"ANIM", b"ANMF"})
"""Parts of the WebP container (RFC 9649) without Exif, XMP and unknown ones."""
_BROKEN = "the picture is cut short or damaged"
_AFTER = "something else stands behind the picture"


def find_picture_fault(content: bytes, ending: str) -> str | None:
    """Say what a picture file holds besides its picture, or that it is none; None if all is well.

    ``ending`` is that of its name, in small letters.
    """
    begins, walk = _KINDS[ending]
    if not begins(content):
        return f'this is no picture of the kind that "{ending}" says'
    try:
        return next(walk(content), None)
    except (struct.error, IndexError):
        return _BROKEN


def _walk_png(content: bytes) -> Iterator[str]:
    place = len(_PNG_START)
    while True:
        size, name = struct.unpack_from(">I4s", content, place)
        if name not in _PNG_PARTS:
            yield f"the picture says more than its dots ({_spell(name)})"
        place += size + 12
        if place > len(content):
            yield _BROKEN
        if name == b"IEND":
            break
    if place != len(content):
        yield _AFTER


def _walk_jpeg(content: bytes) -> Iterator[str]:
    place = 2
    while True:
        if content[place] != 0xFF:
            yield _BROKEN
        marker = content[place + 1]
        place += 2
        if marker == _JPEG_END:
            break
        if marker in _JPEG_BARE:
            continue
        (size,) = struct.unpack_from(">H", content, place)
        told = _JPEG_TOLD.get(marker)
        if marker not in _JPEG_PARTS and not (told and content.startswith(told, place + 2)):
            yield f"the picture says more than its dots (part FF{marker:02X})"
        place += size
        if marker == _JPEG_SCAN:
            place = _skip_scan(content, place)
    if place != len(content):
        yield _AFTER


def _skip_scan(content: bytes, place: int) -> int:
    """Return where the next part begins: a marker that is no stuffed byte and no restart."""
    while True:
        place = content.find(b"\xff", place)
        if place < 0:
            return len(content)
        if content[place + 1] == 0 or 0xD0 <= content[place + 1] <= 0xD7:
            place += 2
        else:
            return place


def _walk_webp(content: bytes) -> Iterator[str]:
    (size,) = struct.unpack_from("<I", content, 4)
    end = size + 8
    if end > len(content):
        yield _BROKEN
    place = 12
    while place < end:
        name, size = struct.unpack_from("<4sI", content, place)
        if name not in _WEBP_PARTS:
            yield f"the picture says more than its dots ({_spell(name)})"
        place += 8 + size + size % 2
    if place != end:
        yield _BROKEN
    if end != len(content):
        yield _AFTER


def _spell(name: bytes) -> str:
    return name.decode("ascii", "replace").strip()


_KINDS: Mapping[str, tuple[Callable[[bytes], bool], Callable[[bytes], Iterator[str]]]] = {
    ".png": (lambda content: content.startswith(_PNG_START), _walk_png),
    ".jpg": (lambda content: content.startswith(_JPEG_START), _walk_jpeg),
    ".jpeg": (lambda content: content.startswith(_JPEG_START), _walk_jpeg),
    ".webp": (lambda content: content[:4] == b"RIFF" and content[8:12] == b"WEBP", _walk_webp),
}
PICTURES = frozenset(_KINDS)
"""Endings of pictures made of dots."""
