"""A finished web page, read back: its anchors, what it points to and its words."""

from dataclasses import dataclass
from html.parser import HTMLParser
from pathlib import Path

_SILENT = frozenset({"noscript", "script", "style", "template"})
_VOID = frozenset({"br", "hr", "img", "input", "link", "meta", "source", "wbr"})
_POINTERS = {
    **dict.fromkeys(("a", "area", "link"), "href"),
    **dict.fromkeys(("audio", "embed", "iframe", "img", "script", "source", "track"), "src"),
    **dict.fromkeys(("frame", "input", "video"), "src"),
    **dict.fromkeys(("feimage", "image", "use"), "href"),
    "object": "data",
    "form": "action",
}
"""Elements that point somewhere, by the attribute that tells where."""
_FOLLOWED = frozenset({"a", "area", "form"})
"""Elements whose target is opened by a person, never by the page itself."""
_LOADED_LINKS = frozenset(
    {"stylesheet", "icon", "manifest", "modulepreload", "prefetch", "preload", "preconnect"}
)


@dataclass(frozen=True, slots=True)
class Pointer:
    """A link or a file that a page names."""

    element: str
    target: str
    in_article: bool
    is_loaded: bool
    """Whether the page opens it by itself, without anybody's doing."""


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
        self._silent: list[bool] = []
        """For each open element, whether nobody sees what stands in it."""

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        values = dict(attrs)
        if values.get("id"):
            self.anchors.add(str(values["id"]))
        target = values.get(_POINTERS.get(tag, ""))
        if target is not None:
            article = "article" in self._open
            self.pointers.append(Pointer(tag, target, article, _is_loaded(tag, values)))
        if tag not in _VOID:
            self._open.append(tag)
            self._silent.append(tag in _SILENT or _is_hidden(values))

    def handle_startendtag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.handle_starttag(tag, attrs)
        if tag not in _VOID:
            self.handle_endtag(tag)

    def handle_endtag(self, tag: str) -> None:
        while tag in self._open:
            self._silent.pop()
            if self._open.pop() == tag:
                return

    def handle_data(self, data: str) -> None:
        if any(self._silent):
            return
        self.words.append(data)
        if "article" in self._open:
            self.article_words.append(data)


def _is_loaded(tag: str, values: dict[str, str | None]) -> bool:
    if tag == "link":
        return bool(_LOADED_LINKS & set((values.get("rel") or "").split()))
    return tag not in _FOLLOWED


def _is_hidden(values: dict[str, str | None]) -> bool:
    style = (values.get("style") or "").replace(" ", "").lower()
    return (
        "hidden" in values
        or values.get("aria-hidden") == "true"
        or "display:none" in style
        or "visibility:hidden" in style
    )
