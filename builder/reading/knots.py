"""Texts that would keep a reader or the host's Markdown busy for ever: knots of their signs."""

import re
from collections.abc import Iterator

from builder.findings import Finding, Place
from builder.input_limits import (
    BLOCK_LINKS,
    LINE_CHARACTERS,
    LINKS,
    OPEN_BRACKETS,
    PAGE_HEADINGS,
    PAGE_LEVELS,
    InputLimit,
)
from builder.rules.excess import tell_excess

_PAGE = ".md"
_LEAD = re.compile(r"[ \t]*(?:(?:>|[-*+]|[0-9]{1,9}[.)])[ \t]+|>)?")
"""What one level of a quotation or list puts before its words."""
_FENCES = ("```", "~~~")
_SPACES_A_LEVEL = 4
_PART = "part it into paragraphs with an empty line between them"
_FLATTEN = "flatten this"


def find_knot(text: str, path: str) -> Finding | None:
    """Report the first line that could not be looked through in time; None where there is none."""
    return next(_find_long_lines(text, path), None) or (
        next(_find_in_page(text, path), None) if path.endswith(_PAGE) else None
    )


def _find_long_lines(text: str, path: str) -> Iterator[Finding]:
    if len(text) <= LINE_CHARACTERS.most:
        return
    for line, words in enumerate(text.split("\n"), start=1):
        if len(words) > LINE_CHARACTERS.most:
            yield _tell(path, line, LINE_CHARACTERS, len(words), _PART)


def _find_in_page(text: str, path: str) -> Iterator[Finding]:
    """Yield what is too many or too deep in a page, line by line."""
    in_block = on_page = is_open = headings = 0
    is_code = False
    for line, words in enumerate(text.split("\n"), start=1):
        is_code ^= words.lstrip().startswith(_FENCES)
        if not words.strip():
            in_block = is_open = 0
            continue
        count = words.count("[") + words.count("`")
        in_block, on_page = in_block + count, on_page + count
        is_open = max(is_open + words.count("[") - words.count("]"), 0)
        headings += not is_code and (words[0] == "#" or not words.strip("-= \t"))
        levels = 0 if is_code else _count_levels(words)
        if levels > PAGE_LEVELS.most:
            yield _tell(path, line, PAGE_LEVELS, levels, _FLATTEN)
        if headings > PAGE_HEADINGS.most:
            yield _tell(path, line, PAGE_HEADINGS, headings, "make two pages of it")
        if is_open > OPEN_BRACKETS.most:
            yield _tell(path, line, OPEN_BRACKETS, is_open, "close each bracket")
        if in_block > BLOCK_LINKS.most:
            yield _tell(path, line, BLOCK_LINKS, in_block, _PART)
        if on_page > LINKS.most:
            yield _tell(path, line, LINKS, on_page, "make two pages of it")


def _count_levels(words: str) -> int:
    """Return how many quotations and lists a line is in; a line of dashes is a rule."""
    if not words.strip(" \t-*+"):
        return 0
    at = count = 0
    while (lead := _LEAD.match(words, at)) and lead[0].strip() and count <= len(words):
        at, count = lead.end(), count + 1
    indent = len(words) - len(words.lstrip())
    return count + (indent + words[:indent].count("\t") * 3) // _SPACES_A_LEVEL


def _tell(path: str, line: int, limit: InputLimit, found: int, cure: str) -> Finding:
    return tell_excess(Place(path, line), limit, found, cure, "the text up to here")
