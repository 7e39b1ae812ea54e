"""Text files: read as UTF-8, and split into header and body."""

import re
from dataclasses import dataclass
from pathlib import Path

from builder import rules
from builder.findings import Finding, Place

LARGEST_FILE_BYTES = 256 * 1024
LARGEST_HEADER_CHARACTERS = 64 * 1024
_FENCE = re.compile(r"^---[ \t]*$", re.MULTILINE)


@dataclass(frozen=True, slots=True)
class TextFile:
    """A file of the course: its header's text and its body's, each with its first line."""

    path: str
    """From the project's folder, with forward slashes."""
    header: str
    header_line: int
    body: str
    body_line: int


def read_text(root: Path, path: Path) -> tuple[str | None, list[Finding]]:
    """Read a file of the course as UTF-8 text with plain line ends."""
    place = Place(path.relative_to(root).as_posix())
    if not path.resolve().is_relative_to(root.resolve()):
        fact, cure = "this link leads out of the course", "put the file itself here"
        return None, [rules.TEXT_UNREADABLE.at(place, fact, cure)]
    try:
        content = path.read_bytes()
    except OSError as error:
        fact = f"the file can't be opened ({error.strerror})"
        return None, [rules.TEXT_UNREADABLE.at(place, fact, "check that it may be read")]
    if len(content) > LARGEST_FILE_BYTES:
        fact = f"the file has {len(content)} bytes, more than {LARGEST_FILE_BYTES}"
        return None, [rules.TEXT_UNREADABLE.at(place, fact, "split it or shorten it")]
    try:
        text = content.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = content[: error.start].count(b"\n") + 1
        where = Place(place.path, line)
        return None, [
            rules.TEXT_UNREADABLE.at(where, "the file is not UTF-8 text", "save it as UTF-8")
        ]
    return text.replace("\r\n", "\n").replace("\r", "\n"), []


def split_header(text: str, path: str) -> tuple[TextFile | None, list[Finding]]:
    """Split a file into the header between two lines of --- and the body after them."""
    fences = list(_FENCE.finditer(text))[:2]
    if len(fences) < 2 or text[: fences[0].start()].strip():
        fact = "the file does not start with a header between two lines of ---"
        cure = "put the header first, with --- above and below it"
        return None, [rules.HEADER_MISSING.at(Place(path), fact, cure)]
    header = text[fences[0].end() + 1 : fences[1].start()]
    if len(header) > LARGEST_HEADER_CHARACTERS:
        fact = f"the header has {len(header)} characters"
        return None, [rules.HEADER_UNREADABLE.at(Place(path), fact, "shorten it")]
    body_start = fences[1].end() + 1
    return (
        TextFile(
            path=path,
            header=header,
            header_line=text.count("\n", 0, fences[0].end()) + 2,
            body=text[body_start:],
            body_line=text.count("\n", 0, body_start) + 1,
        ),
        [],
    )
