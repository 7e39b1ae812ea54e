"""Opens archives, and refuses those that nobody here can open."""

import bz2
import gzip
import lzma
import tarfile
import zipfile
import zlib
from collections.abc import Iterator
from io import BytesIO
from pathlib import PurePosixPath

from builder.publishing.proof.privacy.piece import UnreadableError

_ZIPS = frozenset({".zip", ".epub", ".docx", ".xlsx", ".odt", ".ods", ".pptx", ".odp"})
_CLOSED = frozenset({".7z", ".rar", ".zst", ".br", ".lz4", ".gpg"})
_CLOSED_STARTS = (b"7z\xbc\xaf\x27\x1c", b"Rar!\x1a\x07", b"\x28\xb5\x2f\xfd")
_LOCKED = (b"age-encryption.org/", b"-----BEGIN AGE ENCRYPTED FILE-----")
_GZIP, _BZIP, _XZ = b"\x1f\x8b", b"BZh", b"\xfd7zXZ\0"
"""How each begins."""
_TAR, _TAR_AT = b"ustar", 257
_SHORT_ENDINGS = {".tgz": ".tar", ".tbz": ".tar", ".txz": ".tar", ".svgz": ".svg"}
_MOST_BYTES = 400_000_000
_TOO_MUCH = "it would unpack to more than can be read"
_BROKEN = (
    *(zipfile.BadZipFile, tarfile.TarError, lzma.LZMAError, zlib.error, OSError, EOFError),
    *(RuntimeError, NotImplementedError, ValueError),
)


def refuse_closed(kind: str, content: bytes) -> None:
    """Raise UnreadableError for what is locked, and for archives of kinds that aren't read here."""
    if content.startswith(_LOCKED):
        raise UnreadableError("it is locked with a passphrase")
    if kind in _CLOSED or content.startswith(_CLOSED_STARTS):
        raise UnreadableError("archives of this kind aren't read here")


def is_zip(kind: str, content: bytes) -> bool:
    """Tell whether a file is a zip, or has one behind something else."""
    return kind in _ZIPS or content.startswith(b"PK\3\4") or zipfile.is_zipfile(BytesIO(content))


def unzip(content: bytes) -> Iterator[tuple[str, str, bytes]]:
    """Yield name, remark and content of each part; the zip's own remark first, without a name."""
    try:
        with zipfile.ZipFile(BytesIO(content)) as file:
            parts = file.infolist()
            if sum(part.file_size for part in parts) > _MOST_BYTES:
                raise UnreadableError(_TOO_MUCH)
            yield "", _decode(file.comment), b""
            for part in parts:
                yield part.filename, _decode(part.comment), file.read(part)
    except _BROKEN as error:
        raise UnreadableError(str(error) or "it ends too soon") from error


def unpack(path: str, content: bytes) -> tuple[tuple[str, bytes], ...]:
    """Return the parts of a packed file or of a tar by their names; nothing for other files."""
    try:
        if content.startswith((_GZIP, _BZIP, _XZ)):
            with _open_packed(content) as file:
                return ((_name_inner(path), _refuse_huge(file.read(_MOST_BYTES + 1))),)
        if content[_TAR_AT:].startswith(_TAR):
            return tuple(_read_tar(content))
    except _BROKEN as error:
        raise UnreadableError(str(error) or "it ends too soon") from error
    return ()


def _open_packed(content: bytes) -> gzip.GzipFile | bz2.BZ2File | lzma.LZMAFile:
    if content.startswith(_GZIP):
        return gzip.GzipFile(fileobj=BytesIO(content))
    return (
        bz2.BZ2File(BytesIO(content)) if content[:3] == _BZIP else lzma.LZMAFile(BytesIO(content))
    )


def _read_tar(content: bytes) -> Iterator[tuple[str, bytes]]:
    with tarfile.open(fileobj=BytesIO(content)) as file:
        for member in file:
            inner = file.extractfile(member) if member.isfile() else None
            yield f"{member.name} {member.linkname}".strip(), inner.read() if inner else b""


def _name_inner(path: str) -> str:
    kind = PurePosixPath(path).suffix
    return path.removesuffix(kind) + _SHORT_ENDINGS.get(kind.lower(), "")


def _refuse_huge(content: bytes) -> bytes:
    if len(content) > _MOST_BYTES:
        raise UnreadableError(_TOO_MUCH)
    return content


def _decode(remark: bytes) -> str:
    return remark.decode("utf-8", "replace")
