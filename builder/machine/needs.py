"""What tempoleaf needs on a machine, each need with what was found and its cure, as data."""

import importlib.metadata
import os
import sys
import tempfile
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date
from enum import StrEnum
from pathlib import Path

from builder.machine.browser import find_browser
from builder.machine.libraries import OLDEST_PANGO, has_subsetter, pango_version
from builder.machine.lock import find_unmet, read_lock, read_own_requirements
from builder.machine.systems import Part, find_system, install_line

OLDEST_PYTHON = (3, 11)
THEME = "mkdocs-material"
THEME_ENDS = date(2027, 5, 5)
"""The last day on which the theme's makers mend faults of security, by their release notes."""
SET_UP = "run `python3 builder/start.py --set-up-only`"
RESTORE = "get the file again, such as with `git checkout -- site_templates`"
FONT_STARTS = (b"wOF2", b"\0\1\0\0", b"OTTO", b"true", b"ttcf")
"""First four bytes of WOFF 2.0 (W3C) and of OpenType files (ISO/IEC 14496-22)."""
FONT_ENDINGS = frozenset({".woff2", ".ttf", ".otf", ".ttc"})


class State(StrEnum):
    """How it stands with a need."""

    READY = "ready"
    MISSING = "missing"
    """A build won't work, or not as it should, until this is mended."""
    ADVICE = "advice"
    """Worth knowing; a build works without it."""


@dataclass(frozen=True, slots=True)
class Need:
    """One thing that should be on the machine."""

    name: str
    state: State
    fact: str
    cure: str = ""


@dataclass(frozen=True, slots=True)
class Places:
    """The folders and files that are looked at."""

    lock: Path
    """May be absent: an installed tempoleaf has its own list of requirements instead."""
    fonts: Path
    cache: Path


def examine(places: Places, today: date) -> tuple[Need, ...]:
    """Look at everything that building a course needs."""
    return (
        python_need(tuple(sys.version_info[:3])),
        *package_needs(places.lock),
        pango_need(pango_version()),
        subsetter_need(present=has_subsetter()),
        *font_needs(places.fonts),
        cache_need(places.cache),
        browser_need(find_browser()),
        theme_need(today),
    )


def all_ready(needs: Sequence[Need]) -> bool:
    """Tell whether nothing is missing that a build needs."""
    return all(need.state is not State.MISSING for need in needs)


def python_need(version: tuple[int, ...]) -> Need:
    """Judge the version of Python."""
    fact = "Python " + ".".join(str(part) for part in version)
    if version < OLDEST_PYTHON:
        return Need("python", State.MISSING, fact, "install Python 3.11 or newer")
    return Need("python", State.READY, fact)


def package_needs(lock: Path) -> Iterator[Need]:
    """Compare the installed packages with the lock file, or with the tool's own ranges."""
    wanted = read_lock(lock) if lock.is_file() else read_own_requirements()
    unmet = tuple(find_unmet(wanted))
    for requirement, version in unmet:
        found = "not installed" if version is None else f"{version} is installed"
        fact = f"{requirement.name}{requirement.specifier} is wanted, {found}"
        yield Need("packages", State.MISSING, fact, SET_UP)
    if not unmet:
        yield Need("packages", State.READY, f"all {len(wanted)} as {lock.name} has them")


def pango_need(version: tuple[int, ...] | None) -> Need:
    """Judge the Pango that was loaded, if any."""
    cure = install_line(find_system(), (Part.PANGO,))
    if version is None:
        return Need("pango", State.MISSING, "Pango can't be loaded, so no PDF can be made", cure)
    fact = "Pango " + ".".join(str(part) for part in version)
    if version < OLDEST_PANGO:
        return Need("pango", State.MISSING, f"{fact} is too old, 1.44 is wanted", cure)
    return Need("pango", State.READY, fact)


def subsetter_need(*, present: bool) -> Need:
    """Judge whether HarfBuzz's subsetter could be loaded."""
    if present:
        return Need("subsetter", State.READY, "HarfBuzz's subsetter")
    fact = "HarfBuzz's subsetter can't be loaded, so PDFs are slow to make and vary between runs"
    return Need("subsetter", State.MISSING, fact, install_line(find_system(), (Part.SUBSETTER,)))


def font_needs(folder: Path) -> Iterator[Need]:
    """Look at the fonts that are shipped with the tool."""
    fonts = [file for file in sorted(folder.rglob("*")) if file.suffix.lower() in FONT_ENDINGS]
    broken = [file for file in fonts if not is_font(file)]
    for file in broken:
        yield Need("fonts", State.MISSING, f"{file} can't be read as a font", RESTORE)
    if not fonts:
        yield Need("fonts", State.MISSING, f"no font in {folder}", RESTORE)
    elif not broken:
        yield Need("fonts", State.READY, f"{len(fonts)} font files")


def is_font(file: Path) -> bool:
    """Tell whether a file can be read and starts as a font does."""
    try:
        with file.open("rb") as stream:
            return stream.read(4) in FONT_STARTS
    except OSError:
        return False


def cache_need(folder: Path) -> Need:
    """Try to write in the cache folder, or in the folder in which it will be made."""
    place = next((path for path in (folder, *folder.parents) if path.exists()), folder)
    try:
        with tempfile.TemporaryFile(dir=place):
            return Need("cache", State.READY, f"{folder} can be written")
    except OSError as fault:
        reason = os.strerror(fault.errno).lower() if fault.errno else str(fault)
        fact = f"{place} can't be written: {reason}"
        return Need("cache", State.MISSING, fact, f"give yourself the right to write in {place}")


def browser_need(browser: str | None) -> Need:
    """Judge the browser, which only the tests of the tool itself need."""
    if browser is None:
        cure = install_line(find_system(), (Part.BROWSER,))
        return Need("chromium", State.ADVICE, "not found; only tests need it", cure)
    return Need("chromium", State.READY, browser)


def theme_need(today: date) -> Need:
    """Tell how long the theme is still looked after."""
    try:
        version = importlib.metadata.version(THEME)
    except importlib.metadata.PackageNotFoundError:
        return Need("theme", State.MISSING, f"{THEME} is not installed", SET_UP)
    if today > THEME_ENDS:
        fact = f"{THEME} {version} gets no more mends: they ended on {THEME_ENDS}"
        return Need("theme", State.ADVICE, fact, "look for a newer tempoleaf, with another host")
    left = (THEME_ENDS - today).days
    return Need(
        "theme", State.READY, f"{THEME} {version} is mended until {THEME_ENDS} ({left} days)"
    )
