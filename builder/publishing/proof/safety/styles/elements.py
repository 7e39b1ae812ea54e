"""Elements of a finished page, as the matcher of selectors asks for them."""

from collections.abc import Iterator
from functools import cached_property

from selectolax.lexbor import LexborNode

from builder.publishing.proof.safety.styles.computed import Style
from builder.publishing.proof.safety.styles.matches import Match

SCHEME = "data-md-color-scheme"
"""The attribute of the body by which the theme's script turns a page dark."""


class PageTree:
    """The elements of one page in one of its colour schemes, each made when it is asked for."""

    def __init__(self, scheme: str | None = None, *, has_inline: bool = True) -> None:
        self.scheme = scheme
        self.has_inline = has_inline
        """Whether the styles that stand in elements count."""
        self._known: dict[int, PageElement] = {}

    def wrap(self, node: LexborNode) -> "PageElement":
        """Return a node's element."""
        known = self._known.get(node.mem_id)
        if known is None:
            known = self._known[node.mem_id] = PageElement(node, self)
        return known


class PageElement:
    """One element; the names of its properties are those that the matcher looks for."""

    in_html_document = True
    namespace_url = ""
    in_disabled_fieldset = False

    def __init__(self, node: LexborNode, tree: PageTree) -> None:
        self.node = node
        self._tree = tree
        self.etree_element = self
        self.matches: tuple[Match, ...] | None = None
        """The rules that it falls under, once they were looked for."""
        self.plain: tuple[int, tuple[Match, ...]] | None = None
        """Those among them that look no further than to what it stands in, with their number."""
        self.masks: frozenset[int] | None = None
        """The screens on which they hold, and those of what it stands in."""
        self.situation: int | None = None
        """Stands for all that its looks depend on; the same for elements that are alike."""
        self.styles: dict[int, Style] = {}
        """Its looks on each screen that was asked for."""

    @cached_property
    def local_name(self) -> str:
        """The element's name."""
        return (self.node.tag or "").lower()

    @property
    def tag(self) -> str:
        """The element's name, as siblings are asked for it."""
        return self.local_name

    @cached_property
    def attrib(self) -> dict[str, str]:
        """The element's attributes; the body's scheme is the tree's."""
        found = {name: value or "" for name, value in self.node.attributes.items()}
        if self._tree.scheme is not None and self.local_name == "body" and SCHEME in found:
            found[SCHEME] = self._tree.scheme
        if not self._tree.has_inline:
            found.pop("style", None)
        return found

    def get(self, name: str, default: str | None = None) -> str | None:
        """Return an attribute."""
        return self.attrib.get(name, default)

    @cached_property
    def id(self) -> str | None:
        """The element's id."""
        return self.attrib.get("id")

    @cached_property
    def classes(self) -> frozenset[str]:
        """The element's classes."""
        return frozenset(self.attrib.get("class", "").split())

    @cached_property
    def keys(self) -> tuple[str, ...]:
        """What selectors may need: its name, classes and id."""
        classes = (f".{name}" for name in sorted(self.classes))
        return (self.local_name, *classes, *([f"#{self.id}"] if self.id else []))

    @cached_property
    def text(self) -> str:
        """The words before the first child, as a tree of elements keeps them."""
        first = self.node.first_child
        return (first.text_content or "") if first is not None and first.tag == "-text" else ""

    @cached_property
    def parent(self) -> "PageElement | None":
        """The element that this one stands in."""
        above = self.node.parent
        return None if above is None or above.tag == "-document" else self._tree.wrap(above)

    @cached_property
    def ancestors(self) -> "tuple[PageElement, ...]":
        """All that this one stands in, the page first."""
        found = []
        above = self.parent
        while above is not None:
            found.append(above)
            above = above.parent
        return tuple(reversed(found))

    @cached_property
    def etree_children(self) -> list["PageElement"]:
        """The elements that stand in this one."""
        return [self._tree.wrap(node) for node in self.node.iter() if not _is_no_element(node)]

    @cached_property
    def etree_siblings(self) -> list["PageElement"]:
        """The element among those beside it."""
        return [self] if self.parent is None else self.parent.etree_children

    @cached_property
    def index(self) -> int:
        """Which of its siblings this one is, from 0."""
        return self.etree_siblings.index(self)

    @cached_property
    def previous_siblings(self) -> "tuple[PageElement, ...]":
        """The siblings before this one, the nearest first."""
        return tuple(self.etree_siblings[: self.index][::-1])

    @cached_property
    def previous(self) -> "PageElement | None":
        """The sibling before this one."""
        return self.previous_siblings[0] if self.previous_siblings else None

    @cached_property
    def lang(self) -> str:
        """The language that holds here."""
        own = self.attrib.get("lang")
        if own is not None:
            return own.lower()
        return "" if self.parent is None else self.parent.lang

    def iter_children(self) -> Iterator["PageElement"]:
        """Yield the elements that stand in this one."""
        yield from self.etree_children

    def iter_siblings(self) -> Iterator["PageElement"]:
        """Yield this element and those beside it."""
        yield from self.etree_siblings

    def iter_next_siblings(self) -> Iterator["PageElement"]:
        """Yield the siblings after this one."""
        yield from self.etree_siblings[self.index + 1 :]

    def iter_subtree(self) -> Iterator["PageElement"]:
        """Yield this element and all that stands in it."""
        left = [self]
        while left:
            element = left.pop()
            yield element
            left.extend(reversed(element.etree_children))


def _is_no_element(node: LexborNode) -> bool:
    return (node.tag or "-").startswith("-")
