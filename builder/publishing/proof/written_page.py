"""A finished web page, read back: its anchors, what it points to and its words."""

import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from pathlib import Path

from selectolax.lexbor import LexborHTMLParser, LexborNode

_SILENT = frozenset({"noscript", "script", "style", "template"})
_POINTERS = {
    **dict.fromkeys(("a", "area", "base", "link"), "href"),
    **dict.fromkeys(("audio", "embed", "iframe", "img", "script", "source", "track"), "src"),
    **dict.fromkeys(("frame", "input", "video"), "src"),
    **dict.fromkeys(("feimage", "image", "use"), "href"),
    "object": "data",
    "form": "action",
}
"""Elements that point somewhere, by the attribute that tells where."""
_POINTING = "[href], [src], [data], [action], [style], [srcset], [poster], meta, style, template"
_UNSEEN = "noscript, script, style, template, [hidden], [aria-hidden], [style]"
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
    tree = LexborHTMLParser(text)
    anchors = frozenset(_list_anchors(tree))
    pointers = tuple(_list_pointers(tree, in_article=False))
    return WrittenPage(path, anchors, pointers, _read_words(tree))


def _list_pointers(tree: LexborHTMLParser, *, in_article: bool) -> Iterator[Pointer]:
    """Yield what elements point to or load, in their order; what stands in a template as well."""
    inside = {node.mem_id for node in tree.css("article, article *")}
    for node in _find(tree, _POINTING):
        is_inside = in_article or node.mem_id in inside
        if node.tag == "template":
            yield from _list_pointers(_open_template(node), in_article=is_inside)
            continue
        tag, values = (node.tag or "").lower(), node.attributes
        target = values.get(_POINTERS.get(tag, ""))
        if target is not None:
            yield Pointer(tag, target, is_inside, _is_loaded(tag, values))
        loads = list_style_loads(node.text()) if tag == "style" else _list_loads(values)
        for address in loads:
            yield Pointer(tag, address, is_inside, is_loaded=True)


def _list_anchors(tree: LexborHTMLParser) -> Iterator[str]:
    for node in _find(tree, "[id], template"):
        if node.tag == "template":
            yield from _list_anchors(_open_template(node))
        elif node.attributes["id"]:
            yield str(node.attributes["id"])


def _find(tree: LexborHTMLParser, selector: str) -> Iterable[LexborNode]:
    """Return each element that a selector finds once, though several of its parts name it."""
    return {node.mem_id: node for node in tree.css(selector)}.values()


def _open_template(node: LexborNode) -> LexborHTMLParser:
    """Read what stands in a template, which the parser keeps apart, as if it were shown."""
    html = (node.html or "").removeprefix("<template").removesuffix("</template>")
    return LexborHTMLParser(f"<div{html}</div>")


def _read_words(tree: LexborHTMLParser) -> str:
    """Return the words that somebody sees; what nobody sees is taken out of the tree for it."""
    unseen = [n for n in _find(tree, _UNSEEN) if n.tag in _SILENT or _is_hidden(n.attributes)]
    marks = {node.mem_id for node in unseen}
    outermost = [n for n in unseen if marks.isdisjoint(each.mem_id for each in _list_above(n))]
    for node in outermost:  # what stands in them goes with them, and may not be touched again
        node.decompose()
    articles = [node for node in tree.css("article") if not _is_in_article(node)]
    words = "".join(node.text() for node in articles)
    return words or (tree.root.text() if tree.root else "")


def _list_above(node: LexborNode) -> Iterator[LexborNode]:
    """Yield the elements that an element stands in, from the nearest."""
    above = node.parent
    while above is not None:
        yield above
        above = above.parent


def _is_in_article(node: LexborNode) -> bool:
    return any(each.tag == "article" for each in _list_above(node))


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
