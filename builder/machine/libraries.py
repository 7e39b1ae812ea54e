"""The system libraries that PDFs need, tried by loading them as the PDF engine will."""

import ctypes
import ctypes.util
import os
import sys
from dataclasses import dataclass
from pathlib import Path

OLDEST_PANGO = (1, 44)
"""The first Pango that the PDF engine's documentation supports."""

WINDOWS_FOLDERS = r"C:\msys64\ucrt64\bin;C:\msys64\mingw64\bin"
"""Where the PDF engine looks on Windows when `WEASYPRINT_DLL_DIRECTORIES` is not set."""


@dataclass(frozen=True, slots=True)
class SystemLibrary:
    """A shared library of the system, under the names it has on each kind of system."""

    stem: str
    """The name that the linker is asked for."""
    files: tuple[str, ...]
    """On Linux, macOS and Windows."""

    def load(self) -> ctypes.CDLL | None:
        """Load the library, or give nothing when this machine hasn't got it."""
        _allow_windows_folders()
        found = ctypes.util.find_library(self.stem) if sys.platform == "darwin" else None
        for name in (*self.files, *((found,) if found else ())):
            try:
                return ctypes.CDLL(name)
            except OSError:
                continue
        return None


PANGO = SystemLibrary(
    "pango-1.0", ("libpango-1.0.so.0", "libpango-1.0.dylib", "libpango-1.0-0.dll")
)
PANGO_FONTS = SystemLibrary(
    "pangoft2-1.0", ("libpangoft2-1.0.so.0", "libpangoft2-1.0.dylib", "libpangoft2-1.0-0.dll")
)
SUBSETTER = SystemLibrary(
    "harfbuzz-subset",
    ("libharfbuzz-subset.so.0", "libharfbuzz-subset.0.dylib", "libharfbuzz-subset-0.dll"),
)


def pango_version() -> tuple[int, int, int] | None:
    """Ask Pango for its version, or give nothing when a part of it can't be loaded."""
    library = PANGO.load()
    if library is None or PANGO_FONTS.load() is None:
        return None
    number = int(library.pango_version())
    return (number // 10_000, number // 100 % 100, number % 100)


def has_pango() -> bool:
    """Tell whether a Pango that is new enough can be loaded."""
    version = pango_version()
    return version is not None and version[:2] >= OLDEST_PANGO


def has_subsetter() -> bool:
    """Tell whether HarfBuzz's subsetter can be loaded; without it cards are slow and vary."""
    return SUBSETTER.load() is not None


def _allow_windows_folders() -> None:
    """Let Windows load libraries from where the PDF engine will load them."""
    if sys.platform == "win32":
        for folder in os.environ.get("WEASYPRINT_DLL_DIRECTORIES", WINDOWS_FOLDERS).split(";"):
            if Path(folder).is_dir():
                os.add_dll_directory(folder)
