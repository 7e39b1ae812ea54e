"""Names of files: what can be an id, and what can be a page's address."""

import re
from pathlib import PurePosixPath

from builder import rules
from builder.findings import Finding, Place
from builder.reading.scalars import LONGEST_ID, SLUG

_RESERVED = re.compile(r"con|prn|aux|nul|com[0-9]|lpt[0-9]")
"""Names that no file may have on Windows."""
_KEPT = frozenset({"index", "readme"})
"""Names by which hosts know the first page of a folder."""
_TOOL_PAGES = frozenset({"authors", "map", "readme"})
"""Pages, or folders of pages, that the tool makes."""
_UNLIKE_A_PAGE = re.compile(r"[^\w .,()+-]")


def find_id_fault(path: str) -> Finding | None:
    """Report a lesson's or notice's file whose name can't be its id."""
    stem, place = PurePosixPath(path).stem, Place(path)
    if not re.fullmatch(SLUG, stem) or len(stem) > LONGEST_ID:
        fact = f'the file name "{stem}" is no id'
        cure = f"use small letters, digits and single hyphens, {LONGEST_ID} at most"
        return rules.ID_MALFORMED.at(place, fact, cure)
    if stem in _KEPT:
        fact = f'"{stem}" is kept for the first page of a folder'
        return rules.ID_MALFORMED.at(place, fact, "rename the file")
    if _RESERVED.fullmatch(stem):
        fact = f'"{stem}" can\'t be a file name on every computer'
        return rules.ID_MALFORMED.at(place, fact, "rename the file")
    return None


def find_page_fault(path: str, within: str) -> Finding | None:
    """Report an ordinary page whose name, from the content folder, can't be its address."""
    parts, place = PurePosixPath(within).parts, Place(path)
    if parts[0].removesuffix(".md").lower() in _TOOL_PAGES:
        fact = f'"{parts[0]}" has the name of a page that the tool makes'
        return rules.ID_DOUBLED.at(place, fact, "give it another name")
    bad = next((part for part in parts if is_unlike_a_page(part) or is_windows_name(part)), None)
    if bad is None:
        return None
    fact = f'"{bad}" can\'t be part of a web address on every computer'
    return rules.ID_MALFORMED.at(place, fact, "use letters, digits, hyphens and spaces")


def is_unlike_a_page(name: str) -> bool:
    """Tell whether the name of a file or folder can't be part of an address on every computer."""
    return bool(_UNLIKE_A_PAGE.search(name)) or name.endswith((".", " "))


def is_windows_name(name: str) -> bool:
    """Tell whether no file may have a name on Windows, whatever its ending."""
    return _RESERVED.fullmatch(name.partition(".")[0].lower()) is not None
