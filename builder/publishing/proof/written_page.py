"""A finished web page, read back: its anchors, what it points to and its words."""

from dataclasses import dataclass
from html.parser import HTMLParser
from pathlib import Path

_SILENT = frozenset({"script", "style", "template"})
_VOID = frozenset({"br", "hr", "img", "input", "link", "meta", "source", "wbr"})
_POINTERS = {
    "a": "href",
    "area": "href",
    "img": "src",
    "link": "href",
    "script": "src",
    "source": "src",
}
"""Elements that point somewhere, by the attribute that tells where."""


@dataclass(frozen=True, slots=True)
class Pointer:
    """A link or a file that a page names."""

    element: str
    target: str
    in_article: bool


@dataclass(frozen=True, slots=True)
class WrittenPage:
    """What is on one page."""

    path: str
    """From the site's folder."""
    anchors: frozenset[str]
    pointers: tuple[Pointer, ...]
    text: str
    """The words of the article, or of the whole page where it has no article."""


def read_written_page(folder: Path, path: str) -> WrittenPage:
    """Read one page of a finished site."""
    reader = _PageReader()
    reader.feed((folder / path).read_text(encoding="utf-8"))
    reader.close()
    words = reader.article_words or reader.words
    return WrittenPage(path, frozenset(reader.anchors), tuple(reader.pointers), "".join(words))


class _PageReader(HTMLParser):
    def __init__(self) -> None:
        super().__init__(convert_charrefs=True)
        self.anchors: set[str] = set()
        self.pointers: list[Pointer] = []
        self.words: list[str] = []
        self.article_words: list[str] = []
        self._open: list[str] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        values = dict(attrs)
        if values.get("id"):
            self.anchors.add(str(values["id"]))
        target = values.get(_POINTERS.get(tag, ""))
        if target is not None:
            self.pointers.append(Pointer(tag, target, "article" in self._open))
        if tag not in _VOID:
            self._open.append(tag)

    def handle_startendtag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.handle_starttag(tag, attrs)
        if tag not in _VOID:
            self._open.pop()

    def handle_endtag(self, tag: str) -> None:
        while tag in self._open and self._open.pop() != tag:
            pass

    def handle_data(self, data: str) -> None:
        if self._open and self._open[-1] in _SILENT:
            return
        self.words.append(data)
        if "article" in self._open:
            self.article_words.append(data)
