"""What prints, as a digest: the tool, and the system's libraries that set and cut its text.

The PDF engine asks them through its own bindings, which take a third of a second to load; here they
are asked in three milliseconds. Their versions are taken and not their files, because machines
compare them, and because the one that answers is the one that would be used.
"""

import ctypes
from ctypes.util import find_library
from functools import cache

from builder.work.digest import digest
from builder.work.tool import digest_tool

_MISSING = "none"


@cache
def digest_press() -> str:
    """Return a digest of all that shapes what is printed, but for what is printed."""
    return digest(digest_tool(), *list_text_libraries())


def list_text_libraries() -> tuple[str, ...]:
    """Return each library with its version, or with "none" where it isn't here.

    Whether the one that cuts fonts is here decides how fonts are cut.
    """
    cuts = _open("harfbuzz-subset", "0")
    fonts = _open("fontconfig", "1")
    return (
        f"pango {_ask(_open('pango-1.0', '0'), 'pango_version_string')}",
        f"harfbuzz {_ask(_open('harfbuzz', '0'), 'hb_version_string')}",
        f"harfbuzz-subset {'here' if cuts else _MISSING}",
        f"fontconfig {fonts.FcGetVersion() if fonts else _MISSING}",
    )


def _open(name: str, number: str) -> ctypes.CDLL | None:
    """Load a library as the PDF engine would, by its names on Linux, macOS and Windows."""
    names = (f"lib{name}.so.{number}", f"lib{name}.{number}.dylib", f"lib{name}-{number}.dll")
    for each in names:
        try:
            return ctypes.CDLL(each)
        except OSError:
            continue
    found = find_library(name)  # slow, and needed only where the library is in no usual place
    try:
        return ctypes.CDLL(found) if found else None
    except OSError:  # it is damaged, and no engine can use it
        return None


def _ask(library: ctypes.CDLL | None, question: str) -> str:
    if library is None:
        return _MISSING
    answer = library[question]
    answer.restype = ctypes.c_char_p
    return bytes(answer()).decode()
