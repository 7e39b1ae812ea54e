"""Where the artefacts of a finished site are read: its files, and the chapters of its book."""

import hashlib
import json
import zipfile
import zlib
from collections.abc import Callable, Iterable
from dataclasses import dataclass, field
from io import BytesIO

from builder.publishing.proof.safety.book_order import (
    CONTAINER,
    PACKAGE,
    list_read_chapters,
)
from builder.publishing.proof.safety.evidence import Artefact, Kind
from builder.work.kept import make_key
from builder.work.tool import digest_tool

Read = Callable[[str], bytes]
"""Gives a file by its path; OSError where there is none."""
BOOK_FOLDER = "EPUB/"
_MOST_CHAPTER_BYTES = 16_000_000
"""A chapter of one lesson has some ten thousand (ours)."""


_LOCKS = frozenset({"META-INF/encryption.xml", "META-INF/rights.xml"})
"""What says that files are to be unlocked first; ours never are."""
_SHAPERS = (".css", ".woff2", ".woff", ".ttf", ".otf")
"""Endings of what shapes how words look."""


@dataclass(frozen=True, slots=True)
class Source:
    """The files of a site, each book opened once."""

    read: Read
    style_names: tuple[str, ...]
    """Every style sheet and typeface of the site: any page may load any."""
    _books: dict[str, zipfile.ZipFile | None] = field(default_factory=dict)
    _orders: dict[str, frozenset[str]] = field(default_factory=dict)
    _digests: dict[str, str] = field(default_factory=dict)

    def read_artefact(self, artefact: Artefact) -> bytes:
        """Return the bytes that show a lesson: of a book, those of its chapter."""
        if artefact.kind is Kind.CHAPTER:
            return self.open_book(artefact.file)(artefact.chapter)
        return self.read(artefact.file)

    def is_in_order(self, artefact: Artefact) -> bool:
        """Tell whether those who read a book come to a chapter; any other artefact is come to."""
        if artefact.kind is not Kind.CHAPTER:
            return True
        if artefact.file not in self._orders:
            self.open_book(artefact.file)
            self._orders[artefact.file] = _find_order(self._books[artefact.file])
        return artefact.chapter in self._orders[artefact.file]

    def open_book(self, file: str) -> Read:
        """Return what reads the files of a book by name; OSError where that can't be."""
        if file not in self._books:
            self._books[file] = _open_zip(self.read(file))
        book = self._books[file]

        def read(name: str) -> bytes:
            if book is None:
                raise FileNotFoundError(name)
            return _read_entry(book, BOOK_FOLDER + name)

        return read

    def key(self, artefact: Artefact, wanted: object) -> str:
        """Return a digest of all that a look for wanted words depends on.

        Raises OSError where the artefact isn't there.
        """
        pages = (artefact.pages.first, artefact.pages.last) if artefact.pages else ()
        content = hashlib.sha256(self.read_artefact(artefact)).hexdigest()
        where = artefact.file if artefact.kind is Kind.PAGE else artefact.chapter
        is_come_to = self.is_in_order(artefact)
        told = json.dumps([artefact.kind, where, pages, wanted, is_come_to])
        return make_key("sighting", digest_tool(), self._digest_styles(artefact), content, told)

    def _digest_styles(self, artefact: Artefact) -> str:
        """Return a digest of the styles that may hide words of an artefact."""
        if artefact.kind is Kind.PAGE:
            return self._remember("", self.read, self.style_names)
        if artefact.kind is Kind.CHAPTER:
            names = list_shapers(self.list_book(artefact.file))
            return self._remember(artefact.file, self.open_book(artefact.file), names)
        return ""

    def list_book(self, file: str) -> tuple[str, ...]:
        """Return the names of the files of a book; none where it can't be opened."""
        self.open_book(file)
        book = self._books[file]
        names = book.namelist() if book else ()
        return tuple(
            sorted(n.removeprefix(BOOK_FOLDER) for n in names if n.startswith(BOOK_FOLDER))
        )

    def _remember(self, name: str, read: Read, files: Iterable[str]) -> str:
        if name not in self._digests:
            digests = (f"{file} {hashlib.sha256(read(file)).hexdigest()}" for file in files)
            self._digests[name] = make_key(*digests)
        return self._digests[name]


def list_shapers(names: Iterable[str]) -> tuple[str, ...]:
    """Return the style sheets and typefaces among files."""
    return tuple(sorted(name for name in names if name.lower().endswith(_SHAPERS)))


def _open_zip(content: bytes) -> zipfile.ZipFile | None:
    """Open a book; none is one that is no zip, or of which programs read different files."""
    try:
        book = zipfile.ZipFile(BytesIO(content))
    except (zipfile.BadZipFile, ValueError, OSError, RuntimeError):
        return None
    names = book.namelist()
    return book if len(set(map(str.casefold, names))) == len(names) else None


def _find_order(book: zipfile.ZipFile | None) -> frozenset[str]:
    if book is None or not _LOCKS.isdisjoint(book.namelist()):
        return frozenset()
    try:
        texts = {name: _read_entry(book, name) for name in (CONTAINER, PACKAGE)}
    except OSError:
        return frozenset()
    return list_read_chapters(texts)


def _read_entry(book: zipfile.ZipFile, name: str) -> bytes:
    """Return a file of a book; OSError where it is missing, damaged, locked or far too large."""
    try:
        if book.getinfo(name).file_size > _MOST_CHAPTER_BYTES:
            raise OSError(f"{name} is too large")
        return book.read(name)
    except (KeyError, ValueError, RuntimeError, EOFError, zipfile.BadZipFile, zlib.error) as error:
        raise OSError(f"{name} can't be read") from error
