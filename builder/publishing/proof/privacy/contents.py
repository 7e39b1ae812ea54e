"""What a finished file says, whatever its kind: pages, data, PDFs, books, archives, pictures."""

import base64
import binascii
import re
from collections.abc import Iterator
from dataclasses import dataclass, replace
from pathlib import PurePosixPath

from builder.input_limits import PACKED_BYTES, PACKED_LEVELS, PACKED_PARTS
from builder.publishing.proof.privacy.pictures import has_place, is_picture, list_picture_texts
from builder.publishing.proof.privacy.piece import Piece, UnreadableError
from builder.publishing.proof.privacy.runs import find_runs
from builder.publishing.proof.privacy.unpacking import is_zip, refuse_closed, unpack, unzip

_TAGGED = frozenset({".html", ".htm", ".xhtml", ".svg", ".xml", ".opf", ".ncx", ".json", ".md"})
_CODE = frozenset({".js", ".mjs", ".css", ".map"})
_CODE_FOLDERS = ("assets/", "javascripts/", "stylesheets/")
"""Where scripts and styles lie; what a script holds elsewhere, as the search index, is words."""
_FONTS = frozenset({".woff", ".woff2", ".ttf", ".otf"})
_MEDIA = frozenset({".wav", ".flac", ".mp3", ".ogg", ".opus", ".m4a", ".mp4", ".m4v", ".mov"})
_ENDS_BYTES = 256 * 1024
"""Sound and film keep their words at either end."""
_WRITTEN_OUT = re.compile(r"data:([\w.+/-]*)[^,\"'\s]{0,80};base64,([A-Za-z0-9+/=\s]+|[\w%=-]+)")
"""A file inside a text (RFC 2397)."""


@dataclass(slots=True)
class _Unpacked:
    """How much was unpacked of one file so far, with all that was packed in it."""

    size: int = 0
    parts: int = 0

    def add(self, content: bytes) -> None:
        """Count a part; raise UnreadableError where it is one too many, or one byte."""
        self.size += len(content)
        self.parts += 1
        if self.size > PACKED_BYTES.most or self.parts > PACKED_PARTS.most:
            raise UnreadableError("it unpacks to more than can be read")


def list_pieces(path: str, content: bytes) -> Iterator[Piece]:
    """Yield every text of a file with the spot in it; UnreadableError where it can't be opened."""
    yield from _read(path, content, 0, _Unpacked())


def _read(path: str, content: bytes, depth: int, room: _Unpacked) -> Iterator[Piece]:
    if depth > PACKED_LEVELS.most:
        raise UnreadableError("files are packed into files too many times")
    if depth:
        room.add(content)
    kind = PurePosixPath(path).suffix.lower()
    refuse_closed(kind, content)
    if kind == ".pdf" or b"%PDF-" in content[:1024]:
        yield from _read_pdf(content, depth, room)
    elif is_zip(kind, content):
        yield from _read_zip(content, depth, room)
    elif parts := unpack(path, content):
        yield Piece("its head", find_runs(content[:512]))
        for name, inner in parts:
            yield Piece("the name of a part", name)
            yield from _within("unpacked", _read(name, inner, depth + 1, room))
    else:
        yield from _read_plain((path, kind), content, depth, room)


def _read_plain(
    named: tuple[str, str], content: bytes, depth: int, room: _Unpacked
) -> Iterator[Piece]:
    path, kind = named
    if has_place(content):
        yield Piece("", "", is_place=True)
    if is_picture(content):
        yield from list_picture_texts(content)
        yield Piece("", find_runs(content), is_code=True)
    elif _is_text(content):
        text = _decode(content)
        is_code = kind in _CODE and any(f"/{name}" in f"/{path}" for name in _CODE_FOLDERS)
        yield Piece("", text, has_tags=kind in _TAGGED, is_code=is_code)
        yield from _read_written_out(text, depth, room)
    elif kind not in _FONTS:
        ends = content[:_ENDS_BYTES] + content[-_ENDS_BYTES:] if kind in _MEDIA else content
        yield Piece("", find_runs(ends), is_code=True)


def _read_pdf(content: bytes, depth: int, room: _Unpacked) -> Iterator[Piece]:
    from builder.publishing.proof.privacy.pdf_texts import (  # noqa: PLC0415  # loads slowly
        list_pdf_texts,
    )

    pieces, attached = list_pdf_texts(content)
    yield from pieces
    for name, inner in attached:
        spot = "an attachment"
        yield Piece(spot, name)
        yield from _within(spot, _read(name, inner, depth + 1, room))


def _read_zip(content: bytes, depth: int, room: _Unpacked) -> Iterator[Piece]:
    for name, remark, inner in unzip(content):
        yield Piece("the name of a part" if name else "its own remark", name or remark)
        yield Piece(name, remark)
        yield from _within(name, _read(name, inner, depth + 1, room))
    if not content.startswith(b"PK"):  # a zip may stand behind something else
        yield Piece("", _decode(content) if _is_text(content) else find_runs(content))


def _read_written_out(text: str, depth: int, room: _Unpacked) -> Iterator[Piece]:
    for kind, letters in _WRITTEN_OUT.findall(text) if ";base64," in text else ():
        try:
            inner = base64.b64decode(letters + "==", altchars=b"-_")
        except (binascii.Error, ValueError):
            continue
        name = f"a.{kind.rpartition('/')[2].partition('+')[0]}"
        yield from _within("a file written into it", _read(name, inner, depth + 1, room))


def _within(spot: str, pieces: Iterator[Piece]) -> Iterator[Piece]:
    for piece in pieces:
        yield replace(piece, spot=f"{spot}, {piece.spot}" if piece.spot else spot)


def _is_text(content: bytes) -> bool:
    start = content[:4096]
    return b"\0" not in start or start.startswith((b"\xff\xfe", b"\xfe\xff"))


def _decode(content: bytes) -> str:
    if content.startswith((b"\xff\xfe", b"\xfe\xff")):
        return content.decode("utf-16", "replace")
    try:
        return content.decode("utf-8")
    except UnicodeDecodeError:
        return content.decode("cp1252", "replace")
