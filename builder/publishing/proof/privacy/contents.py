"""What a finished file says, whatever its kind: pages, data, PDFs, books, archives, pictures."""

import gzip
import re
import zipfile
import zlib
from collections.abc import Iterator
from dataclasses import replace
from io import BytesIO
from pathlib import PurePosixPath

from builder.publishing.proof.privacy.pdf_texts import list_pdf_texts
from builder.publishing.proof.privacy.pictures import PICTURES, list_picture_texts
from builder.publishing.proof.privacy.piece import Piece, UnreadableError

_TAGGED = frozenset({".html", ".htm", ".xhtml", ".svg", ".xml", ".opf", ".ncx", ".json", ".md"})
_CODE = frozenset({".js", ".mjs", ".css", ".map"})
_CODE_FOLDERS = ("assets/", "javascripts/", "stylesheets/")
"""Where scripts and styles lie; what a script holds elsewhere, as the search index, is words."""
_ARCHIVES = frozenset({".zip", ".epub", ".docx", ".xlsx", ".odt", ".ods", ".pptx", ".odp"})
_FONTS = frozenset({".woff", ".woff2", ".ttf", ".otf"})
_RUN = re.compile(rb"[\x20-\x7e\x80-\xf4]{6,}")
_ENDS_BYTES = 256 * 1024
"""Sound files keep their words at either end."""
_MOST_BYTES = 400_000_000
_DEEPEST = 4
_BROKEN = (zipfile.BadZipFile, zlib.error, OSError, EOFError, RuntimeError, NotImplementedError)


def list_pieces(path: str, content: bytes, depth: int = 0) -> Iterator[Piece]:
    """Yield every text of a file with the spot in it; UnreadableError where it can't be opened."""
    kind = PurePosixPath(path).suffix.lower()
    if kind == ".pdf" or content.startswith(b"%PDF-"):
        yield from _read_pdf(content, depth)
    elif kind in _ARCHIVES or content.startswith(b"PK\x03\x04"):
        yield from _read_archive(content, depth)
    elif kind == ".gz":
        yield from _within("unpacked", list_pieces(path[: -len(kind)], _unpack(content), depth + 1))
    elif kind in PICTURES:
        yield from list_picture_texts(content)
        yield Piece("", _find_runs(content), is_code=True)
    elif _is_text(content):
        text = _decode(content)
        is_code = kind in _CODE and any(f"/{name}" in f"/{path}" for name in _CODE_FOLDERS)
        yield Piece("", text, has_tags=kind in _TAGGED, is_code=is_code)
    elif kind not in _FONTS:
        yield Piece("", _find_runs(content[:_ENDS_BYTES] + content[-_ENDS_BYTES:]), is_code=True)


def _read_pdf(content: bytes, depth: int) -> Iterator[Piece]:
    texts, attached = list_pdf_texts(content)
    yield from texts
    _refuse_depth(depth)
    for name, inner in attached:
        spot = "an attachment"
        yield Piece(spot, name)
        yield from _within(spot, list_pieces(name, inner, depth + 1))


def _read_archive(content: bytes, depth: int) -> Iterator[Piece]:
    _refuse_depth(depth)
    try:
        with zipfile.ZipFile(BytesIO(content)) as file:
            parts = [part for part in file.infolist() if not part.is_dir()]
            if sum(part.file_size for part in parts) > _MOST_BYTES:
                raise UnreadableError("it would unpack to more than can be read")
            yield Piece("its own remark", file.comment.decode("utf-8", "replace"))
            for part in parts:
                yield Piece("the name of a part", part.filename)
                within = list_pieces(part.filename, file.read(part), depth + 1)
                yield from _within(part.filename, within)
    except _BROKEN as error:
        raise UnreadableError(str(error) or "it ends too soon") from error


def _within(spot: str, pieces: Iterator[Piece]) -> Iterator[Piece]:
    for piece in pieces:
        yield replace(piece, spot=f"{spot}, {piece.spot}" if piece.spot else spot)


def _refuse_depth(depth: int) -> None:
    if depth > _DEEPEST:
        raise UnreadableError("files are packed into files too many times")


def _unpack(content: bytes) -> bytes:
    try:
        with gzip.open(BytesIO(content)) as file:
            unpacked = file.read(_MOST_BYTES + 1)
    except _BROKEN as error:
        raise UnreadableError(str(error) or "it ends too soon") from error
    if len(unpacked) > _MOST_BYTES:
        raise UnreadableError("it would unpack to more than can be read")
    return unpacked


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


def _find_runs(content: bytes) -> str:
    """Return what could be words in bytes that are no text."""
    return "\n".join(run.decode("utf-8", "ignore") for run in _RUN.findall(content))
