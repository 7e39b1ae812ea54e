"""Texts of people whom the studio doesn't know: words, and nothing that any host would act on.

What is found here is not passed on: a text with a fault never becomes a lesson, notice or page.
"""

import posixpath
import re
from collections.abc import Iterator
from dataclasses import replace

from builder import rules
from builder.findings import Finding, Place, Rule
from builder.reading.live_markup import Kind, find_live_markup
from builder.reading.references import find_addresses, find_html
from builder.reading.text_file import TextFile, split_header
from builder.reading.yaml_tree import Tree, Way, YamlTree, read_yaml

_CURES: dict[Kind, tuple[Rule, str]] = {
    Kind.MARKUP: (rules.MARKUP_UNSAFE, 'use plain Markdown, and "less than" in words'),
    Kind.ADDRESS: (
        rules.ADDRESS_UNSAFE,
        "link to a page of the course, or to an address with https",
    ),
}
_BLOCK = re.compile(r"\{[a-z-]+\}[ \t]*")
"""A block of the tool's own, on a line by itself."""
_TEMPLATE = re.compile(r"\{\{|\{%|\{#|\{:|\{!")
_ORDERS = (
    (re.compile(r"[{}]"), "braces are orders to some hosts", "write it without braces"),
    (
        re.compile(r"-{1,}8<-{1,}"),
        "this takes in another file on some hosts",
        "write out the words",
    ),
    (re.compile(r"^\s*:{3,}"), "this is an order to some hosts", "write it in words"),
    (re.compile(r"^\s*/{3,}\s*\w"), "this is an order to some hosts", "write it in words"),
    (
        re.compile(r"^\s*(?:\?{3}\+?|={3}[!+]?)\s+\S"),
        "this hides what stands below it on some hosts",
        "write it as plain paragraphs",
    ),
    (
        re.compile(r"^\s*(?:`{3,}+|~{3,}+)[ \t]*+(?!(?!mermaid\b)[A-Za-z0-9+#-]{0,20}[ \t]*$)\S"),
        "what stands behind these signs is an order to some hosts",
        "name a language in one word, or nothing",
    ),
)
"""What Markdown shows as it is, and extensions of it act on, even inside code."""
_INDENT = re.compile(r"^[ \t]*(?:(?:[-*+]|[0-9]+[.)])[ \t]+)?", re.MULTILINE)
_HEADED = ".md"


def find_untrusted_faults(text: str, path: str, within: str) -> tuple[Finding, ...]:
    """Report what no text of unknown people may hold; ``within`` is from the content folder."""
    file: TextFile | None = TextFile(path, text, 1, "", 1)
    if path.endswith(_HEADED):
        file = TextFile(path, "", 1, text, 1)
        if text.startswith("---\n"):
            file, _ = split_header(text, path)
    if file is None:
        return ()
    tree, _ = read_yaml(file.header, path, file.header_line) if file.header else (None, [])
    found = [*_judge_tree(tree, path)] if tree else []
    return (*found, *_judge_body(file, within))


def _judge_tree(tree: YamlTree, path: str) -> Iterator[Finding]:
    """Report what stands in any key or value of a header."""
    for way, value in _list_texts(tree.values):
        place = Place(path, *tree.places.get(way, tree.keys.get(way, (1, 1))))
        lives = find_live_markup(value)
        for live in lives:
            rule, cure = _CURES[live.kind]
            yield rule.at(place, live.fact, cure)
        if not lives and any(find_html(value, path)):
            yield _tell_html(place)
        order = _TEMPLATE.search(value)
        if order:
            fact = f'"{order[0]}" is an order to some hosts'
            yield rules.MARKUP_UNSAFE.at(place, fact, "write it without braces")


def _tell_html(place: Place) -> Finding:
    fact = "HTML stands here, which some hosts would run or fetch"
    return rules.MARKUP_UNSAFE.at(place, fact, _CURES[Kind.MARKUP][1])


def _list_texts(tree: Tree) -> Iterator[tuple[Way, str]]:
    """Yield every text of a tree, keys too, with the way to it."""
    waiting: list[tuple[Way, Tree]] = [((), tree)]
    while waiting:
        way, value = waiting.pop(0)
        if isinstance(value, str):
            yield way, value
        elif isinstance(value, list):
            waiting += [((*way, index), part) for index, part in enumerate(value)]
        elif isinstance(value, dict):
            yield from (((*way, key), key) for key in value)
            waiting += [((*way, key), part) for key, part in value.items()]


def _judge_body(file: TextFile, within: str) -> Iterator[Finding]:
    body, before = file.body, file.body_line - 1
    lives = set(find_live_markup(body))
    if within.startswith("lessons/"):  # whose lines are read without their indents
        lives |= set(find_live_markup(_INDENT.sub("", body)))
    for live in sorted(lives, key=lambda live: (live.line, live.fact)):
        rule, cure = _CURES[live.kind]
        yield rule.at(Place(file.path, live.line + before), live.fact, cure)
    told = {live.line for live in lives}
    for place in find_html(body, file.path):
        if place.line not in told:
            yield _tell_html(replace(place, line=place.line + before))
    for number, line in enumerate(body.split("\n"), file.body_line):
        order = _find_order(line)
        if order:
            yield rules.MARKUP_UNSAFE.at(Place(file.path, number, order[0]), *order[1:])
    for address, place in find_addresses(body, file.path):
        if _leads_out(address, within):
            where = replace(place, line=place.line + before)
            fact = f'"{address}" leads out of the course'
            yield rules.ADDRESS_UNSAFE.at(where, fact, "name a file beside this page")


def _find_order(line: str) -> tuple[int, str, str] | None:
    """Return column, fact and cure of the first order in a line."""
    if _BLOCK.fullmatch(line):
        return None
    for pattern, fact, cure in _ORDERS:
        found = pattern.search(line)
        if found:
            return found.start() + 1, fact, cure
    return None


def _leads_out(address: str, within: str) -> bool:
    """Tell whether an address climbs out of the content folder, or names a place on a disk."""
    path = address.partition("#")[0].partition("?")[0]
    whole = posixpath.normpath(posixpath.join(posixpath.dirname(within), path))
    return path.startswith("/") or whole.startswith("..")
