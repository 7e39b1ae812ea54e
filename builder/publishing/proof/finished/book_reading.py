"""What an EPUB holds (EPUB 3.3, World Wide Web Consortium), read without judging."""

import zipfile
import zlib
from collections.abc import Mapping
from dataclasses import dataclass
from html.parser import HTMLParser
from pathlib import Path

from builder.input_limits import BOOK_BYTES

CONTAINER = "META-INF/container.xml"
MIMETYPE = "mimetype"
MEDIA_TYPE = b"application/epub+zip"
_TEXTS = (".xhtml", ".html", ".htm", ".opf", ".xml", ".ncx", ".css", ".svg")
_UNREADABLE = (zipfile.BadZipFile, zlib.error, OSError, EOFError, RuntimeError, ValueError)
"""What is raised over a damaged zip, one with a password, or one packed in a rare way."""

Attributes = Mapping[str, str]


@dataclass(frozen=True, slots=True)
class Book:
    """The parts of an EPUB by their paths in it."""

    names: tuple[str, ...]
    texts: Mapping[str, str]
    has_type_first: bool
    """Whether the first part says, unpacked, that this is an EPUB."""


class BookError(ValueError):
    """A file is no zip, or one that is not to be opened."""


def read_book(path: Path) -> Book:
    """Read an EPUB; raises BookError where it can't be opened."""
    try:
        with zipfile.ZipFile(path) as file:
            parts = [part for part in file.infolist() if not part.is_dir()]
            if sum(part.file_size for part in parts) > BOOK_BYTES.most:
                raise BookError("it would unpack to more than a book can hold")
            texts = {
                part.filename: file.read(part).decode("utf-8", "replace")
                for part in parts
                if part.filename.lower().endswith(_TEXTS)
            }
            first = parts[0] if parts else None
            is_first = (
                first is not None
                and first.filename == MIMETYPE
                and first.compress_type == zipfile.ZIP_STORED
                and file.read(first) == MEDIA_TYPE
            )
    except _UNREADABLE as error:
        raise BookError(str(error) or "it ends too soon") from error
    return Book(tuple(part.filename for part in parts), texts, is_first)


def list_elements(text: str) -> tuple[tuple[str, Attributes], ...]:
    """Return name and attributes of every element, prefixes taken off, small letters all."""
    reader = _Elements()
    reader.feed(text)
    reader.close()
    return tuple(reader.found)


class _Elements(HTMLParser):
    def __init__(self) -> None:
        super().__init__(convert_charrefs=True)
        self.found: list[tuple[str, Attributes]] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        values = {name.rpartition(":")[2]: value or "" for name, value in attrs}
        self.found.append((tag.rpartition(":")[2], values))
