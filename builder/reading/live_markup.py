"""What a browser would make of a Markdown text, beyond words, lists, tables, links and pictures.

The text is turned into HTML as a host does it, and read as a browser reads it. So nothing hangs
on whether we guess from the source what Markdown takes for code, for HTML or for an address.
"""

import re
from collections import Counter
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from enum import Enum
from functools import lru_cache

from markdown import Markdown
from markdown.extensions.fenced_code import FencedBlockPreprocessor
from selectolax.lexbor import LexborHTMLParser, LexborNode

from builder.reading.browser_address import Use, decode_address, find_address_fault

_EXTENSIONS = ("tables", "fenced_code", "toc")
"""What the host's own settings begin with; none of them makes more of a text than Markdown does."""
_PLAIN = ("h1", "h2", "h3", "h4", "h5", "h6")
_ATTRIBUTES = {
    **{name: frozenset({"id"}) for name in _PLAIN},
    **{name: frozenset[str]() for name in ("html", "head", "body", "p", "br", "hr", "em")},
    **{name: frozenset[str]() for name in ("strong", "pre", "blockquote", "ul", "li")},
    **{name: frozenset[str]() for name in ("table", "thead", "tbody", "tr")},
    "ol": frozenset({"start"}),
    "code": frozenset({"class"}),
    "th": frozenset({"style"}),
    "td": frozenset({"style"}),
    "a": frozenset({"href", "title"}),
    "img": frozenset({"src", "alt", "title"}),
}
"""Elements that Markdown makes, each with the attributes that it gives them."""
_FORMS = {
    "style": re.compile(r"text-align: (left|center|right);"),
    "class": re.compile(r"language-[A-Za-z0-9+#.-]{1,30}"),
    "start": re.compile(r"[0-9]{1,9}"),
}
_USES = {"href": Use.LINK, "src": Use.PICTURE}
_SUSPICIOUS = re.compile(r"\]\s*[(\[:]|<|^[ ]{0,3}(?:```|~~~)|^[ ]{4}", re.MULTILINE)
"""Without any of these signs a text makes nothing but words."""
_FENCE = re.compile(r"^[ ]{0,3}(?:`{3,}|~{3,})", re.MULTILINE)
_RAW_HTML = "HTML stands here, which a page could run or fetch"
_OPEN_FENCE = "a code block begins here and never ends"
_UNNAMED = "-unnamed"
"""A node that has no name, as an order to another program."""
_MOST_FOUND = 20
"""Of one text; where so much is wrong, more doesn't help."""


class Kind(Enum):
    """What is wrong."""

    MARKUP = "markup"
    ADDRESS = "address"


@dataclass(frozen=True, slots=True)
class Live:
    """One thing that a page may not hold, and the line of the text on which it begins."""

    kind: Kind
    fact: str
    line: int


@lru_cache(maxsize=4)  # links and markup of a text are asked for one after the other
def find_live_markup(text: str) -> tuple[Live, ...]:
    """Return what a browser would run, fetch, open or hide in a Markdown text, line by line."""
    if not _SUSPICIOUS.search(text):
        return ()
    seen: Counter[tuple[Kind, str]] = Counter()
    found: list[Live] = []
    lines = text.split("\n")
    for kind, fact in _look(text)[:_MOST_FOUND]:
        seen[kind, fact] += 1
        found.append(Live(kind, fact, _find_line(lines, (kind, fact), seen[kind, fact])))
    return tuple(sorted(found, key=lambda live: live.line))


def _find_line(lines: Sequence[str], fact: tuple[Kind, str], count: int) -> int:
    """Return the line on which what is found for the so many-th time begins."""

    def holds(part: Sequence[str], times: int) -> bool:
        return _look("\n".join(part)).count(fact) >= times

    end = _halve(len(lines), lambda size: holds(lines[:size], count))
    return end + 1 - _halve(end, lambda size: holds(lines[end - size : end], 1))


def _halve(most: int, is_enough: Callable[[int], bool]) -> int:
    """Return a size that is enough where one less isn't; the most is taken to be enough."""
    low, high = 0, most
    while low + 1 < high:
        middle = (low + high) // 2
        low, high = (low, middle) if is_enough(middle) else (middle, high)
    return high


def _look(text: str) -> list[tuple[Kind, str]]:
    """Return every kind and fact, in the order of the page."""
    markdown = Markdown(extensions=_EXTENSIONS)
    html = markdown.convert(text)
    page = LexborHTMLParser(html)
    found = [fact for node in _walk(page.root) for fact in _judge(node)]
    if _FENCE.search(FencedBlockPreprocessor.FENCED_BLOCK_RE.sub("", text)):
        found.append((Kind.MARKUP, _OPEN_FENCE))
    for address, _ in markdown.references.values():
        found += _judge_address(decode_address(address), Use.LINK)
    if "<" in text and not found and html != _convert_without_html(text):
        found.append((Kind.MARKUP, _RAW_HTML))
    return found


def _convert_without_html(text: str) -> str:
    markdown = Markdown(extensions=_EXTENSIONS)
    markdown.preprocessors.deregister("html_block")
    markdown.inlinePatterns.deregister("html")
    return markdown.convert(text)


def _walk(node: LexborNode | None) -> Iterator[LexborNode]:
    """Yield nodes in the order of the page, without a call for each level of it."""
    waiting = [node] if node else []
    while waiting:
        current = waiting.pop()
        yield current
        waiting += reversed(list(current.iter(include_text=True)))


def _judge(node: LexborNode) -> Iterator[tuple[Kind, str]]:
    name = node.tag or _UNNAMED
    if name == "-text":
        return
    if name not in _ATTRIBUTES:
        shown = "a comment" if name.startswith("-") else f'"<{name}>"'
        yield Kind.MARKUP, f"{shown} would stand on the page"
        return
    for key, value in node.attributes.items():
        if key not in _ATTRIBUTES[name] or not _is_formed(key, value or ""):
            yield Kind.MARKUP, f'"{key}" of "<{name}>" would stand on the page'
        elif key in _USES:
            yield from _judge_address(value or "", _USES[key])


def _is_formed(key: str, value: str) -> bool:
    return key not in _FORMS or _FORMS[key].fullmatch(value) is not None


def _judge_address(address: str, use: Use) -> Iterator[tuple[Kind, str]]:
    fault = find_address_fault(address, use)
    if fault:
        yield Kind.ADDRESS, f'"{address}" {fault}'
