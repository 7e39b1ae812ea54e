"""Text files: read as UTF-8, and split into header and body."""

import re
from dataclasses import dataclass
from errno import ELOOP
from pathlib import Path

from builder import rules
from builder.findings import Finding, Place
from builder.input_limits import HEADER_CHARACTERS, LEDGER_BYTES, TEXT_BYTES
from builder.reading.hidden_signs import CURE, find_hidden_sign
from builder.reading.knots import find_knot
from builder.rules.excess import tell_excess
from builder.work.plain_file import TooLargeError, read_plain

_SHORTEN = "split or shorten it"
_FENCE = re.compile(r"^---[ \t]*$", re.MULTILINE)

_LEDGER = "releases"
"""The file of the course that grows with every release, in whatever language."""


@dataclass(frozen=True, slots=True)
class TextFile:
    """A file of the course: its header's text and its body's, each with its first line."""

    path: str
    """From the project's folder, with forward slashes."""
    header: str
    header_line: int
    body: str
    body_line: int


def read_text(
    root: Path, path: Path, within: Path | None = None
) -> tuple[str | None, list[Finding]]:
    """Read a file of the course as UTF-8 text with plain line ends.

    It must really lie in the project at ``root``, or in the folder ``within`` it that is given.
    """
    place = Place(path.relative_to(root).as_posix())
    most = LEDGER_BYTES if path.name.partition(".")[0] == _LEDGER else TEXT_BYTES
    try:
        refusal = _find_refusal(within or root, path)
        content = b"" if refusal else read_plain(path, most.most)
    except TooLargeError as error:
        return None, [tell_excess(place, most, error.size, _SHORTEN, "the file")]
    except (OSError, RuntimeError) as error:
        refusal = _explain(error)
    if refusal:
        return None, [rules.TEXT_UNREADABLE.at(place, *refusal)]
    try:
        text = content.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = content[: error.start].count(b"\n") + 1
        where = Place(place.path, line)
        return None, [
            rules.TEXT_UNREADABLE.at(where, "the file is not UTF-8 text", "save it as UTF-8")
        ]
    text = text.replace("\r\n", "\n").replace("\r", "\n")
    hidden = find_hidden_sign(text)
    if hidden:
        start, fact = hidden
        line_start = text.rfind("\n", 0, start) + 1
        where = Place(place.path, text.count("\n", 0, start) + 1, start - line_start + 1)
        return None, [rules.TEXT_UNREADABLE.at(where, fact, CURE)]
    knot = find_knot(text, place.path)
    return (None, [knot]) if knot else (text, [])


def _find_refusal(folder: Path, path: Path) -> tuple[str, str] | None:
    """Return fact and cure where a path is no plain file of the course."""
    if not path.resolve().is_relative_to(folder.resolve()):
        return "this link leads out of the course", "put the file itself here"
    if not path.is_file():
        what = "a folder" if path.is_dir() else "no plain file"
        return f"this is {what}, not text", "take it away, or put a text file here"
    return None


def _explain(error: OSError | RuntimeError) -> tuple[str, str]:
    """Say why a file can't be opened; a link in a circle is a RuntimeError up to Python 3.12."""
    if isinstance(error, RuntimeError) or error.errno == ELOOP:
        return "this link leads round in a circle", "put the file itself here"
    return f"the file can't be opened ({error.strerror})", "check that it may be read"


def split_header(text: str, path: str) -> tuple[TextFile | None, list[Finding]]:
    """Split a file into the header between two lines of --- and the body after them."""
    fences = list(_FENCE.finditer(text))[:2]
    if len(fences) < 2 or text[: fences[0].start()].strip():
        fact = "the file does not start with a header between two lines of ---"
        cure = "put the header first, with --- above and below it"
        return None, [rules.HEADER_MISSING.at(Place(path), fact, cure)]
    header = text[fences[0].end() + 1 : fences[1].start()]
    if len(header) > HEADER_CHARACTERS.most:
        excess = tell_excess(
            Place(path), HEADER_CHARACTERS, len(header), "shorten it", "the header"
        )
        return None, [excess]
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
