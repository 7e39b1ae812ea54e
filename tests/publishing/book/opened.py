"""A book opened for tests: its files, its chapters as trees, what stands in it."""

import zipfile
from dataclasses import dataclass
from io import BytesIO
from xml.etree import ElementTree
from xml.etree.ElementTree import Element

XHTML = "{http://www.w3.org/1999/xhtml}"
EPUB = "{http://www.idpf.org/2007/ops}"
OPF = "{http://www.idpf.org/2007/opf}"
DC = "{http://purl.org/dc/elements/1.1/}"
SVG = "{http://www.w3.org/2000/svg}"
FOLDER = "EPUB/"


@dataclass(frozen=True)
class OpenedBook:
    """Every file of a book by its path in the zip, in the order of the zip."""

    files: dict[str, bytes]

    def tree(self, name: str) -> Element:
        """Return a file of the book's folder as XML."""
        return ElementTree.fromstring(self.files[FOLDER + name])  # noqa: S314  # ours

    def words(self, name: str) -> str:
        """Return the words of a chapter, spaces evened out."""
        return " ".join("".join(self.tree(name).itertext()).split())

    @property
    def chapters(self) -> list[str]:
        """Return the names of all chapters."""
        names = [name.removeprefix(FOLDER) for name in self.files]
        return [name for name in names if name.endswith(".xhtml")]


def open_book(content: bytes) -> OpenedBook:
    """Open a book."""
    with zipfile.ZipFile(BytesIO(content)) as book:
        return OpenedBook({name: book.read(name) for name in book.namelist()})
