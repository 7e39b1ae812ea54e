"""The tree of a PDF's tags, as values (ISO 32000-1, 14.7)."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from typing import TypeAlias

import pikepdf

from builder.publishing.proof.structure.objects import (
    Key,
    list_items,
    read_dictionary,
    read_name,
    read_number,
    read_text,
)

Spot: TypeAlias = tuple[Key, int]
"""A stream's key, and the number of a mark in it."""
_DEEPEST = 100
_NO_KEY = (0, 0)
_MOST_MAPS = 20


@dataclass(frozen=True, slots=True)
class Note:
    """What a link or another annotation is in the tree."""

    key: Key


@dataclass(frozen=True, slots=True)
class Cell:
    """What a part of a table says of its headers."""

    id: str
    headers: tuple[str, ...]
    scope: str


@dataclass(frozen=True, slots=True)
class Node:
    """A part of a text with its role."""

    key: Key
    role: str
    """A standard one where the file maps its own to one."""
    kids: tuple["Node | Spot | Note", ...]
    nodes: tuple["Node", ...]
    """Those of its kids that have a role themselves."""
    alt: str
    """What stands for a picture; empty where nothing does."""
    language: str | None
    cell: Cell

    def walk(self) -> Iterator["Node"]:
        """Yield it and all below it in reading order."""
        waiting = [self]
        while waiting:
            node = waiting.pop()
            yield node
            waiting += reversed(node.nodes)

    def list_spots(self) -> Iterator[Spot]:
        """Yield the marks of it and all below it in reading order."""
        for kid in self.kids:
            if isinstance(kid, Node):
                yield from kid.list_spots()
            elif not isinstance(kid, Note):
                yield kid

    @property
    def has_content(self) -> bool:
        """Tell whether anything stands in it or below it."""
        if len(self.nodes) < len(self.kids):
            return True
        return any(node.has_content for node in self.nodes)


@dataclass(slots=True)
class TreeReading:
    """The tree of a file, and what is wrong with its build."""

    roots: tuple[Node, ...] = ()
    torn: list[str] = field(default_factory=list)
    owners: dict[Spot, Key] = field(default_factory=dict)
    """Which part has a mark."""
    keepers: dict[Key, Key] = field(default_factory=dict)
    """Which part has an annotation."""

    def list_nodes(self) -> tuple[Node, ...]:
        """Return every part in reading order."""
        return tuple(node for root in self.roots for node in root.walk())


def read_tree(root: pikepdf.Object) -> TreeReading:
    """Read the tree of a file from its root."""
    return _TreeReader(read_dictionary(root, "/StructTreeRoot")).read()


class _TreeReader:
    def __init__(self, root: pikepdf.Dictionary) -> None:
        self._root = root
        self._roles = _read_roles(read_dictionary(root, "/RoleMap"))
        self._seen: set[Key] = set()
        self._reading = TreeReading()

    def read(self) -> TreeReading:
        """Read all from the root down."""
        kids = list_items(self._root.get("/K"))
        nodes = (
            self._read_node(kid, self._root.objgen, _NO_KEY, 0)
            for kid in kids
            if isinstance(kid, pikepdf.Dictionary)
        )
        self._reading.roots = tuple(node for node in nodes if node is not None)
        return self._reading

    def _read_node(
        self, part: pikepdf.Dictionary, parent: Key, page: Key, depth: int
    ) -> Node | None:
        key = part.objgen
        if key in self._seen or depth > _DEEPEST:
            self._reading.torn.append("a part stands in the tree twice, or too deep")
            return None
        if key != _NO_KEY:
            self._seen.add(key)
        own = part.get("/Pg")
        page = own.objgen if isinstance(own, pikepdf.Dictionary) else page
        given, names = read_name(part, "/S"), part.keys()
        above = part.get("/P")
        if not isinstance(above, pikepdf.Dictionary) or above.objgen != parent:
            self._reading.torn.append(f"a part of the role {given} doesn't know where it belongs")
        found = (self._read_kid(kid, key, page, depth + 1) for kid in list_items(part.get("/K")))
        kids = tuple(kid for kid in found if kid is not None)
        alt = [read_text(part, name) or "" for name in ("/Alt", "/ActualText") if name in names]
        return Node(
            key=key,
            role=self._roles.get(given, given),
            kids=kids,
            nodes=tuple(kid for kid in kids if isinstance(kid, Node)),
            alt="".join(alt).strip(),
            language=read_text(part, "/Lang") if "/Lang" in names else None,
            cell=_read_cell(part, given),
        )

    def _read_kid(
        self, kid: object, parent: Key, page: Key, depth: int
    ) -> Node | Spot | Note | None:
        if isinstance(kid, int):
            return self._own((page, kid), parent)
        if not isinstance(kid, pikepdf.Dictionary):
            self._reading.torn.append("a part has something in it that is no part")
            return None
        if "/S" in kid:
            return self._read_node(kid, parent, page, depth)
        number = read_number(kid, "/MCID")
        if number is not None:
            holder = kid.get("/Stm", kid.get("/Pg"))
            stream = holder.objgen if isinstance(holder, pikepdf.Object) else page
            return self._own((stream, number), parent)
        noted = kid.get("/Obj")
        if isinstance(noted, pikepdf.Object):
            self._reading.keepers[noted.objgen] = parent
            return Note(noted.objgen)
        self._reading.torn.append("a part has something in it that is no part")
        return None

    def _own(self, spot: Spot, parent: Key) -> Spot:
        if spot in self._reading.owners:
            self._reading.torn.append(f"mark {spot[1]} belongs to two parts")
        self._reading.owners[spot] = parent
        return spot


def _read_roles(given: pikepdf.Dictionary) -> Mapping[str, str]:
    """Return the standard role of each role that a file made up."""
    direct = {str(name).removeprefix("/"): read_name(given, str(name)) for name in given.keys()}  # noqa: SIM118  # no dict
    roles = dict(direct)
    for _ in range(_MOST_MAPS):
        roles = {name: direct.get(role, role) for name, role in roles.items()}
    return roles


def _read_cell(part: pikepdf.Dictionary, role: str) -> Cell:
    """Read what a cell says of its headers; other parts say nothing."""
    if role not in ("TH", "TD"):
        return _NO_CELL
    tables = [item for item in list_items(part.get("/A")) if isinstance(item, pikepdf.Dictionary)]
    headers = [str(name) for item in tables for name in list_items(item.get("/Headers"))]
    scopes = [scope for item in tables if (scope := read_name(item, "/Scope"))]
    return Cell(read_text(part, "/ID") or "", tuple(headers), scopes[0] if scopes else "")


_NO_CELL = Cell("", (), "")
