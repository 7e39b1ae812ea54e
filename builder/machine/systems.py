"""Kinds of system, the packages that each calls its parts, and the line that installs them."""

import shutil
import sys
from collections.abc import Iterable, Mapping
from enum import Enum, StrEnum
from types import MappingProxyType


class Part(StrEnum):
    """A part of the system that Python's own packages don't bring."""

    ENVIRONMENTS = "Python's module for virtual environments"
    PANGO = "Pango, which sets the text of PDFs"
    SUBSETTER = "HarfBuzz's subsetter, which makes PDFs small and always the same"
    BROWSER = "Chromium, in which the tests look at finished pages"


class System(Enum):
    """A kind of system, by how it installs packages."""

    DEBIAN = "apt-get install -y --no-install-recommends"
    FEDORA = "dnf install -y"
    ARCH = "pacman -S --needed --noconfirm"
    ALPINE = "apk add"
    MACOS = "brew install"
    WINDOWS = "pacman -S --needed"
    OTHER = ""


VENV = f"python{sys.version_info.major}.{sys.version_info.minor}-venv"

PACKAGES: Mapping[System, Mapping[Part, tuple[str, ...]]] = MappingProxyType(
    {
        System.DEBIAN: {
            Part.ENVIRONMENTS: (VENV,),
            Part.PANGO: ("libpangoft2-1.0-0",),
            Part.SUBSETTER: ("libharfbuzz-subset0",),
            Part.BROWSER: ("chromium", "libatomic1"),
        },
        System.FEDORA: {
            Part.PANGO: ("pango",),
            Part.SUBSETTER: ("harfbuzz",),
            Part.BROWSER: ("chromium",),
        },
        System.ARCH: {
            Part.PANGO: ("pango",),
            Part.SUBSETTER: ("harfbuzz",),
            Part.BROWSER: ("chromium",),
        },
        System.ALPINE: {
            Part.PANGO: ("pango", "fontconfig"),
            Part.SUBSETTER: ("harfbuzz-subset",),
            Part.BROWSER: ("chromium",),
        },
        System.MACOS: {
            Part.ENVIRONMENTS: ("python",),
            Part.PANGO: ("pango",),
            Part.SUBSETTER: ("harfbuzz",),
            Part.BROWSER: ("chromium",),
        },
        System.WINDOWS: {
            Part.PANGO: ("mingw-w64-ucrt-x86_64-pango",),
            Part.SUBSETTER: ("mingw-w64-ucrt-x86_64-harfbuzz",),
        },
        System.OTHER: {},
    }
)

PROGRAMS = (
    ("apt-get", System.DEBIAN),
    ("dnf", System.FEDORA),
    ("pacman", System.ARCH),
    ("apk", System.ALPINE),
)


def find_system() -> System:
    """Tell what kind of system this is."""
    if sys.platform == "darwin":
        return System.MACOS
    if sys.platform == "win32":
        return System.WINDOWS
    return next((kind for name, kind in PROGRAMS if shutil.which(name)), System.OTHER)


def packages_for(system: System, parts: Iterable[Part]) -> tuple[str, ...]:
    """Name the packages that bring these parts, each once."""
    known = PACKAGES[system]
    return tuple(dict.fromkeys(name for part in parts for name in known.get(part, ())))


def install_line(system: System, parts: Iterable[Part]) -> str:
    """Write what a person does to get these parts: one line to run, or else a sentence."""
    wanted = tuple(parts)
    unnamed = tuple(part for part in wanted if part not in PACKAGES[system])
    packages = " ".join(packages_for(system, wanted))
    told = [f"install {part}" for part in unnamed]
    if packages:
        told.insert(0, _command(system, packages))
    return "; then ".join(told)


def _command(system: System, packages: str) -> str:
    install = f"{system.value} {packages}"
    match system:
        case System.DEBIAN:
            return f"sudo apt-get update && sudo {install}"
        case System.MACOS:
            return install
        case System.WINDOWS:
            return f"{install}   (in the UCRT64 shell of MSYS2)"
        case _:
            return f"sudo {install}"
