"""A finished web page, read back: its anchors, what it points to and its words."""

import re
from collections.abc import Iterator
from dataclasses import dataclass
from html.parser import HTMLParser
from pathlib import Path

_SILENT = frozenset({"noscript", "script", "style", "template"})
_VOID = frozenset({"base", "br", "hr", "img", "input", "link", "meta", "source", "wbr"})
_POINTERS = {
    **dict.fromkeys(("a", "area", "base", "link"), "href"),
    **dict.fromkeys(("audio", "embed", "iframe", "img", "script", "source", "track"), "src"),
    **dict.fromkeys(("frame", "input", "video"), "src"),
    **dict.fromkeys(("feimage", "image", "use"), "href"),
    "object": "data",
    "form": "action",
}
"""Elements that point somewhere, by the attribute that tells where."""
_FOLLOWED = frozenset({"a", "area", "form"})
"""Elements whose target is opened by a person, never by the page itself."""
_STYLE_LOAD = re.compile(
    r"""url\(\s*["']?([^"')\s]+)|@import\s+(?:"([^"]+)"|'([^']+)')""", re.IGNORECASE
)
_REFRESH = re.compile(r"url\s*=\s*['\"]?([^'\"\s]+)", re.IGNORECASE)
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

    def distinct_pointers(self) -> tuple[Pointer, ...]:
        """Return each address once, as the article has it where it is in both."""
        ranked = sorted(self.pointers, key=lambda p: (p.target, p.is_loaded, not p.in_article))
        return tuple({(p.target, p.is_loaded): p for p in reversed(ranked)}.values())[::-1]


def read_written_page(folder: Path, path: str) -> WrittenPage:
    """Read one page of a finished site."""
    return parse_written_page(path, (folder / path).read_text(encoding="utf-8"))


def parse_written_page(path: str, text: str) -> WrittenPage:
    """Read the text of one page, of a site or of a book."""
    reader = _PageReader()
    reader.feed(text)
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
            self._point(tag, target, is_loaded=_is_loaded(tag, values))
        for address in _list_loads(values):
            self._point(tag, address, is_loaded=True)
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
        if self._open and self._open[-1] == "style":
            for address in list_style_loads(data):
                self._point("style", address, is_loaded=True)
        if any(self._silent):
            return
        self.words.append(data)
        if "article" in self._open:
            self.article_words.append(data)

    def _point(self, tag: str, target: str, *, is_loaded: bool) -> None:
        self.pointers.append(Pointer(tag, target, "article" in self._open, is_loaded))


def list_style_loads(style: str) -> tuple[str, ...]:
    """Return every address that a piece of CSS loads."""
    return tuple(found[1] or found[2] or found[3] for found in _STYLE_LOAD.finditer(style))


def _list_loads(values: dict[str, str | None]) -> Iterator[str]:
    """Yield what an element loads besides what it points to."""
    yield from list_style_loads(values.get("style") or "")
    choices = values.get("srcset") or ""
    for choice in () if choices.startswith("data:") else choices.split(","):
        yield from choice.split()[:1]
    if values.get("poster"):
        yield str(values["poster"])
    if (values.get("http-equiv") or "").lower() == "refresh":
        yield from _REFRESH.findall(values.get("content") or "")


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
