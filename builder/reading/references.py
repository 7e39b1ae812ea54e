"""What a text points to: lessons by name, addresses by link. A wrong one leads people astray."""

import re
from collections.abc import Collection, Iterator
from html import unescape
from itertools import islice
from urllib.parse import urlsplit

from builder import rules
from builder.course.names import suggest
from builder.findings import Finding, Place, Rule
from builder.input_limits import WRONG_NAMES
from builder.reading.live_markup import Kind, find_live_markup
from builder.rules.excess import tell_excess

_CODE = re.compile(r"^```.*?(?:^```|\Z)|`[^`\n]*`", re.MULTILINE | re.DOTALL)
_LESSON = re.compile(r"\[\[([^\[\]\n]*)\]\]")
_ADDRESS = re.compile(r"\]\(\s*<?([^\s>)]*)|^[ ]{0,3}\[[^\]\n]+\]:\s*<?([^\s>]*)", re.MULTILINE)
_SCHEME = re.compile(r"([a-z][a-z0-9+.-]*):", re.IGNORECASE)
_SAFE_SCHEMES = frozenset({"http", "https", "mailto", "tel"})
_BRACKET = re.compile(r"\\.|!?\[|\]")
_TARGET = re.compile(r"\(\s*<?([^\s>)]*)")
_HTML = re.compile(
    r"<(?=[A-Za-z/!?])(?!(?:https?://|mailto:)[^\s<>]*>)(?![^\s<>@:/]+@[^\s<>@:/]+>)"
)
_PLAIN_CURE = 'use plain Markdown, and "less than" in words'


def find_wrong_references(text: str, path: str, lessons: Collection[str]) -> Iterator[Finding]:
    """Report names of no lesson, and links that a browser would run or open on the machine."""
    plain = _blank_code(text)
    wrong = 0
    for found in _LESSON.finditer(plain):
        name = found[1].strip()
        if name not in lessons:
            wrong += 1
            if wrong > WRONG_NAMES.most:
                place = _place(plain, path, found.start())
                yield tell_excess(place, WRONG_NAMES, wrong, "mend those above first", "the text")
                break
            fact = f'"{found[0]}" names no lesson'
            cure = suggest(name, lessons) or "write the id of a lesson of this course"
            yield rules.BROKEN_LINK.at(_place(plain, path, found.start()), fact, cure)
    yield from find_wrong_addresses(text, path)


def find_names(text: str) -> tuple[str, ...]:
    """Return the names of lessons that a text points to, each once; code left out."""
    return tuple(dict.fromkeys(found[1].strip() for found in _LESSON.finditer(_blank_code(text))))


def find_wrong_addresses(text: str, path: str) -> Iterator[Finding]:
    """Report links that a browser would run or open on the machine."""
    told = list(_find_written_addresses(text, path))
    yield from told
    cure = "link to a page of the course, or to an address with https"
    yield from _find_live(text, path, (Kind.ADDRESS, rules.BROKEN_LINK, cure), told)


def _find_live(
    text: str, path: str, kind: tuple[Kind, Rule, str], told: Collection[Finding]
) -> Iterator[Finding]:
    """Report what only a browser's eye sees, on lines of which nothing is told yet."""
    wanted, rule, cure = kind
    lines = {finding.place.line for finding in told}
    for live in find_live_markup(text):
        if live.kind is wanted and live.line not in lines:
            yield rule.at(Place(path, live.line), live.fact, cure)


def _find_written_addresses(text: str, path: str) -> Iterator[Finding]:
    for address, place in find_addresses(text, path):
        if not _is_address(address):
            fact = f'"{address}" is no address that a browser can read'
            yield rules.BROKEN_LINK.at(place, fact, "write it as a browser shows it")
            continue
        scheme = _SCHEME.match(address)
        if scheme and scheme[1].lower() not in _SAFE_SCHEMES:
            fact = f'"{address}" is no address of a page'
            cure = "link to a page of the course, or to an address with https"
            yield rules.BROKEN_LINK.at(place, fact, cure)


def _is_address(text: str) -> bool:
    try:
        urlsplit(text)
    except ValueError:
        return False
    return True


def find_addresses(text: str, path: str) -> Iterator[tuple[str, Place]]:
    """Yield every address that a text links to, as written, with its place; code left out."""
    plain = _blank_code(text)
    for found in _ADDRESS.finditer(plain):
        yield unescape(found[1] or found[2] or ""), _place(plain, path, found.start())


def find_foreign_parts(text: str, path: str) -> Iterator[Finding]:
    """Report HTML, and pictures that a page would fetch from somebody else."""
    told = list(_find_written_parts(text, path))
    yield from told
    yield from _find_live(text, path, (Kind.MARKUP, rules.BODY_MALFORMED, _PLAIN_CURE), told)


def find_html(text: str, path: str) -> Iterator[Place]:
    """Yield every place where HTML begins as it is written, whether or not a host sees it so."""
    plain = _blank_code(text)
    for found in _HTML.finditer(plain):
        yield _place(plain, path, found.start())


def _find_written_parts(text: str, path: str) -> Iterator[Finding]:
    for place in islice(find_html(text, path), 1):
        fact = "HTML stands here, which a page could run or fetch"
        yield rules.BODY_MALFORMED.at(place, fact, _PLAIN_CURE)
    plain = _blank_code(text)
    for start, end in _find_pictures(plain):
        target = _TARGET.match(plain, end)
        address = unescape(target[1]) if target else ""
        if target is None or _SCHEME.match(address) or address.startswith("//"):
            fact = "this picture would be fetched from somewhere else"
            cure = "put it into the content folder and name it in round brackets"
            yield rules.BODY_MALFORMED.at(_place(plain, path, start), fact, cure)


def _find_pictures(text: str) -> Iterator[tuple[int, int]]:
    """Yield where each picture's description begins and ends, brackets inside it counted."""
    opened: list[tuple[int, bool]] = []
    for found in _BRACKET.finditer(text):
        if found[0].endswith("["):
            opened.append((found.start(), found[0] == "!["))
        elif found[0] == "]" and opened:
            start, is_picture = opened.pop()
            if is_picture:
                yield start, found.end()


def _blank_code(text: str) -> str:
    """Put spaces in place of code, which shows as it is; lines and columns stay."""
    return _CODE.sub(lambda found: re.sub(r"[^\n]", " ", found[0]), text)


def _place(text: str, path: str, start: int) -> Place:
    line_start = text.rfind("\n", 0, start) + 1
    return Place(path, text.count("\n", 0, start) + 1, start - line_start + 1)
