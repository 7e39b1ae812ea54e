"""Takes a name out of YAML text and leaves the rest to the letter, comments of others too."""

import re
from collections.abc import Collection, Iterator
from dataclasses import dataclass

import yaml

from builder.reading.yaml_tree import Tree, read_yaml

_REST = re.compile(r"[ \t]*(#[^\n]*)?(\n|\Z)")
"""What may stand behind an entry on its line; a remark there is about that entry."""
_COMMA = re.compile(r"[ \t]*,[ \t]*")
_LEAD = re.compile(r"[ \t]*(-[ \t]+)?")


@dataclass(frozen=True, slots=True)
class _Entry:
    """One entry of a list or mapping, by the characters that it takes."""

    start: int
    end: int
    is_flow: bool
    is_item: bool


def cut_name(text: str, name: str, keys: Collection[str]) -> str | None:
    """Return a text without a name in the lists and mappings under some keys.

    An optional list that is left with nothing goes whole. None where it can't be cut so that all
    else reads as before; an empty text where nobody is left under one of the keys.
    """
    before = read_yaml(text, "")[0]
    if before is None:
        return None
    wanted = drop_name(before.values, name, keys)
    if wanted == before.values:
        return text
    if _is_empty(wanted, keys):
        return ""
    new = text
    for entry in sorted(_find_entries(text, name, keys), key=lambda each: -each.start):
        cut = _cut(new, entry)
        if cut is None:
            return None
        new = cut
    after = read_yaml(new, "")[0]
    return new if after is not None and after.values == wanted else None


def drop_name(tree: Tree, name: str, keys: Collection[str], under: str = "") -> Tree:
    """Return a tree without a name, as an entry of a list or a key, under some keys."""
    if isinstance(tree, list):
        kept = [each for each in tree if not (under in keys and _is_name(each, name))]
        return [drop_name(each, name, keys, under if under in keys else "") for each in kept]
    if isinstance(tree, dict):
        return {
            key: drop_name(value, name, keys, key)
            for key, value in tree.items()
            if not (under in keys and _is_name(key, name))
        }
    return tree


def _is_name(value: object, name: str) -> bool:
    return isinstance(value, str) and value.casefold() == name.casefold()


def _is_empty(tree: Tree, keys: Collection[str]) -> bool:
    """Tell whether a list or mapping under one of the keys has nobody left."""
    if isinstance(tree, dict):
        return any(
            (key in keys and value in ([], {})) or _is_empty(value, keys)
            for key, value in tree.items()
        )
    return isinstance(tree, list) and any(_is_empty(each, keys) for each in tree)


def _find_entries(text: str, name: str, keys: Collection[str]) -> Iterator[_Entry]:
    root = yaml.compose(text, Loader=yaml.SafeLoader)
    waiting: list[tuple[object, str]] = [(root, "")]
    while waiting:
        node, under = waiting.pop()
        if isinstance(node, yaml.SequenceNode):
            for item in node.value:
                if under in keys and _is_name(getattr(item, "value", None), name):
                    yield _Entry(
                        item.start_mark.index, _find_end(item), bool(node.flow_style), True
                    )
                waiting.append((item, under if under in keys else ""))
        elif isinstance(node, yaml.MappingNode):
            for key, value in node.value:
                if under in keys and _is_name(key.value, name):
                    yield _Entry(
                        key.start_mark.index, _find_end(value), bool(node.flow_style), False
                    )
                waiting.append((value, str(key.value)))


def _find_end(node: yaml.Node) -> int:
    """Return where the last word of a node ends; a block itself ends only where the next begins."""
    if isinstance(node, yaml.CollectionNode) and not node.flow_style and node.value:
        last = node.value[-1]
        return _find_end(last[1] if isinstance(last, tuple) else last)
    return int(node.end_mark.index)


def _cut(text: str, entry: _Entry) -> str | None:
    line = text.rfind("\n", 0, entry.start) + 1
    lead = text[line : entry.start]
    if entry.is_flow:
        return _cut_flow(text, entry, line)
    rest = _REST.match(text, entry.end)
    found = _LEAD.fullmatch(lead)
    if rest is None or found is None or bool(found[1]) is not entry.is_item:
        return None
    return text[:line] + text[rest.end() :]


def _cut_flow(text: str, entry: _Entry, line: int) -> str:
    """Cut an entry between brackets, with the comma behind it or else the one before it."""
    comma = _COMMA.match(text, entry.end)
    if comma is None:
        before = re.search(r",\s*\Z", text[: entry.start])
        start = before.start() if before else entry.start
        return text[:start] + text[entry.end :]
    rest = _REST.match(text, comma.end())
    if rest and not text[line : entry.start].strip():
        return text[:line] + text[rest.end() :]
    return text[: entry.start] + text[comma.end() :]
