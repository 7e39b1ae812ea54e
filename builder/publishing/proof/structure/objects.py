"""Parts of a PDF as they are meant to be, or nothing where they are something else.

A damaged file may have anything anywhere; whoever looks into one asks here.
"""

from collections.abc import Iterator
from typing import TypeAlias

import pikepdf

Key: TypeAlias = tuple[int, int]
"""Number and generation of an object, which are 0 where it stands within another."""
_MOST_REFERENCES = 100_000


def read_value(holder: object, name: str) -> object:
    """Return whatever stands under a name; None where nothing can."""
    if not isinstance(holder, pikepdf.Dictionary | pikepdf.Stream):
        return None
    return holder.get(name)


def read_dictionary(holder: object, name: str) -> pikepdf.Dictionary:
    """Return a dictionary of a dictionary, an empty one where it has none."""
    value = read_value(holder, name)
    return value if isinstance(value, pikepdf.Dictionary) else pikepdf.Dictionary()


def read_name(holder: pikepdf.Object, name: str) -> str:
    """Return a name without its slash, or nothing."""
    value = holder.get(name)
    return str(value).removeprefix("/") if isinstance(value, pikepdf.Name) else ""


def read_text(holder: pikepdf.Object, name: str) -> str | None:
    """Return a text; None where there is none."""
    value = holder.get(name)
    return str(value) if isinstance(value, pikepdf.String) else None


def read_number(holder: object, name: str) -> int | None:
    """Return a whole number; None where there is none."""
    value = read_value(holder, name)
    return value if isinstance(value, int) and not isinstance(value, bool) else None


def list_items(value: object) -> list[object]:
    """Return the parts of an array; anything else is the only part."""
    if value is None:
        return []
    return list(value) if isinstance(value, pikepdf.Array) else [value]


def read_number_tree(root: pikepdf.Object) -> dict[int, object]:
    """Return the parts of a number tree (ISO 32000-1, 7.9.7) by their keys."""
    rows = (list_items(leaf.get("/Nums")) for leaf in _list_leaves(root))
    pairs = (pair for row in rows for pair in zip(row[::2], row[1::2], strict=False))
    return {key: value for key, value in pairs if isinstance(key, int)}


def _list_leaves(root: pikepdf.Object) -> Iterator[pikepdf.Dictionary]:
    waiting: list[object] = [root]
    for _ in range(_MOST_REFERENCES):
        if not waiting:
            return
        node = waiting.pop()
        if isinstance(node, pikepdf.Dictionary):
            yield node
            waiting += list_items(node.get("/Kids"))
