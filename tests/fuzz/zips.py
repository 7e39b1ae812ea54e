"""Changes to archives: to what is in them, and to what they say of themselves."""

import io
import struct
import zipfile
import zlib
from collections.abc import Callable
from random import Random

_CENTRAL = b"PK\x01\x02"
_SIZES = (20, 24)
"""Where an entry of the list at the end gives its packed and unpacked size (APPNOTE.TXT 4.3.12)."""


def read_parts(data: bytes) -> list[tuple[str, bytes]] | None:
    """Return the parts of an archive; None where it is none any more."""
    try:
        with zipfile.ZipFile(io.BytesIO(data)) as file:
            return [(each.filename, file.read(each)) for each in file.infolist()]
    except (zipfile.BadZipFile, zlib.error, OSError, EOFError, RuntimeError, ValueError):
        return None


def write_parts(parts: list[tuple[str, bytes]]) -> bytes:
    """Return an archive of some parts, with the same bytes each time."""
    target = io.BytesIO()
    with zipfile.ZipFile(target, "w") as file:
        for name, content in parts:
            entry = zipfile.ZipInfo(name, (2026, 1, 1, 0, 0, 0))
            entry.compress_type = zipfile.ZIP_DEFLATED
            file.writestr(entry, content)
    return target.getvalue()


def change_zip(data: bytes, random: Random, change: Callable[[bytes], bytes]) -> bytes:
    """Change one part of an archive, its list of parts, or a size that it gives."""
    parts = read_parts(data)
    if not parts:
        return change(data)
    kind, at = random.randrange(10), random.randrange(len(parts))
    name, content = parts[at]
    if kind == 0:
        del parts[at]
    elif kind == 1:
        parts.append(parts[random.randrange(len(parts))])
    elif kind == 2:
        parts[at] = (random.choice(("../x", "/x", "x" * 300, "a/" * 90, "é\u202e", name)), content)
    elif kind == 3:
        return _lie_about_size(data, random)
    else:
        parts[at] = (name, change(content))
    if len({each for each, _ in parts}) < len(parts):
        parts = list({f"{each}": (each, inner) for each, inner in parts}.values())
    return write_parts(parts)


def _lie_about_size(data: bytes, random: Random) -> bytes:
    at = data.find(_CENTRAL, random.randrange(len(data)))
    if at < 0:
        return data
    spot = at + random.choice(_SIZES)
    size = struct.pack("<I", random.choice((0, 1, 2**31, 2**32 - 1, random.randrange(10**6))))
    return data[:spot] + size + data[spot + 4 :]
