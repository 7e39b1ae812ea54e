"""Style sheets read into rules, with the conditions under which each holds."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace

from tinycss2 import (  # type: ignore[import-untyped]
    parse_blocks_contents,
    parse_rule_list,
    parse_stylesheet,
    serialize,
)
from tinycss2.ast import AtRule, Node, QualifiedRule  # type: ignore[import-untyped]

from builder.publishing.proof.safety.styles.conditions import Condition

_DEEPEST = 16
"""Rules nested deeper than this are not followed; their sheet then counts as not understood."""
_LONGEST = 2_000
"""Selectors that grow longer than this by nesting are not followed either."""
_LOOSE = frozenset(
    {"container", "scope", "starting-style", "supports", "document", "-moz-document"}
)
"""Rules in these may hold or not."""
_IDLE = frozenset(
    {"keyframes", "-webkit-keyframes", "-moz-keyframes", "-o-keyframes", "page"}
    | {"counter-style", "font-feature-values", "font-palette-values", "position-try", "layer"}
)
"""What does nothing by itself: a property must name it, and is judged then.

Of paper only the margins are left to a sheet; ``_is_odd_page`` tells others.
"""
_PAGE = frozenset({"margin", "margin-top", "margin-bottom", "margin-left", "margin-right"})


@dataclass(frozen=True, slots=True)
class Declaration:
    """A property and its value, both in lower case where case doesn't matter."""

    name: str
    value: str
    is_important: bool


@dataclass(frozen=True, slots=True)
class SheetRule:
    """Declarations for what a selector matches."""

    selector: str
    declarations: tuple[Declaration, ...]
    conditions: tuple[Condition, ...]
    layer: str
    """The layer's name; empty for what is in none, and so wins over all that is in one."""
    is_loose: bool
    """Whether it is unknown if the rule holds at all."""


@dataclass(frozen=True, slots=True, eq=False)
class Sheet:
    """What one style sheet holds."""

    rules: tuple[SheetRule, ...]
    imports: tuple[tuple[str, tuple[Condition, ...]], ...]
    layers: tuple[str, ...]
    """In their order: later ones win."""
    typefaces: frozenset[str]
    """The families of letters that it brings, in lower case."""
    letters: tuple[str, ...]
    """Where the files of those families lie."""
    is_odd: bool
    """Whether something in it that holds for the whole page isn't understood."""


@dataclass(frozen=True, slots=True)
class _Place:
    """Where in a sheet a rule stands."""

    selector: str = ""
    conditions: tuple[Condition, ...] = ()
    layer: str = ""
    is_loose: bool = False
    depth: int = 0


class _Reader:
    """Reads one sheet; what it finds beside rules is kept on the way."""

    def __init__(self) -> None:
        self.imports: list[tuple[str, tuple[Condition, ...]]] = []
        self.typefaces: set[str] = set()
        self.letters: list[str] = []
        self.is_odd = False
        self.layers: list[str] = []
        self._has_rules = False

    def read(self, nodes: Iterable[Node], place: _Place) -> Iterator[SheetRule]:
        """Yield the rules among nodes and in them."""
        if place.depth > _DEEPEST:
            self.is_odd = True
            return
        for node in nodes:
            if node.type == "qualified-rule":
                yield from self._read_rule(node, place)
            elif node.type == "at-rule":
                yield from self._read_at_rule(node, place)

    def _read_rule(self, node: QualifiedRule, place: _Place) -> Iterator[SheetRule]:
        selector = nest_selector(serialize(node.prelude).strip(), place.selector)
        if place.selector and len(selector) > _LONGEST:
            self.is_odd = True
            return
        inner = replace(place, selector=selector, depth=place.depth + 1)
        yield from self._read_block(node.content, inner)

    def _read_block(self, content: list[Node], place: _Place) -> Iterator[SheetRule]:
        """Yield a block's declarations as a rule, then the rules in it."""
        parts = parse_blocks_contents(content, skip_comments=True, skip_whitespace=True)
        found = tuple(read_declarations(parts))
        if found:
            is_loose = place.is_loose or _is_interrupted(parts)
            yield SheetRule(place.selector, found, place.conditions, place.layer, is_loose)
            self._has_rules = True
        yield from self.read(parts, place)

    def _read_at_rule(self, node: AtRule, place: _Place) -> Iterator[SheetRule]:
        name, prelude = node.lower_at_keyword, serialize(node.prelude).strip()
        inner = replace(place, depth=place.depth + 1)
        if name == "media":
            inner = replace(inner, conditions=(*place.conditions, Condition(prelude)))
        elif name == "layer":
            inner = self._enter_layer(prelude, inner, is_block=node.content is not None)
        elif name in _LOOSE:
            inner = replace(inner, is_loose=True)
        elif name == "import":
            self._note_import(node)
            self.is_odd |= self._has_rules or place != _Place()  # browsers leave such out
            return
        elif name == "charset":
            self.is_odd |= prelude.lower() not in {'"utf-8"', "'utf-8'"}
            return
        elif name == "font-face":
            self._note_typeface(node)
            return
        else:
            self.is_odd |= name not in _IDLE or (name == "page" and _is_odd_page(node))
            return
        if node.content is not None:
            yield from self._read_inside(node.content, inner)

    def _read_inside(self, content: list[Node], place: _Place) -> Iterator[SheetRule]:
        if place.selector:
            yield from self._read_block(content, place)
        else:
            nodes = parse_rule_list(content, skip_comments=True, skip_whitespace=True)
            yield from self.read(nodes, place)

    def _enter_layer(self, prelude: str, place: _Place, *, is_block: bool) -> _Place:
        """Note layers in their order; a layer within another isn't followed."""
        names = [name.strip() for name in prelude.split(",")] if prelude else []
        if is_block and not names:
            names = [f" {len(self.layers)}"]  # one without a name is always new
        self.layers += [name for name in names if name not in self.layers]
        if not is_block:
            return place
        is_plain = not place.layer and "." not in names[0]
        return replace(place, layer=names[0], is_loose=place.is_loose or not is_plain)

    def _note_import(self, node: AtRule) -> None:
        tokens = [token for token in node.prelude if token.type not in {"whitespace", "comment"}]
        address = _read_address(tokens[0]) if tokens else None
        rest = tokens[1:]
        if address is None or any(_is_layer_or_support(token) for token in rest):
            self.is_odd = True  # not followed
        else:
            condition = (Condition(serialize(rest)),) if rest else ()
            self.imports.append((address, condition))

    def _note_typeface(self, node: AtRule) -> None:
        for found in read_declarations(parse_blocks_contents(node.content or [])):
            if found.name == "font-family":
                self.typefaces.add(found.value.strip("\"' "))
        for part in parse_blocks_contents(node.content or []):
            if part.type == "declaration" and part.lower_name == "src":
                found_addresses = (_read_address(token) for token in part.value)
                self.letters += [address for address in found_addresses if address]


def read_sheet(text: str) -> Sheet:
    """Read a style sheet; what a browser would drop as broken is dropped."""
    reader = _Reader()
    nodes = parse_stylesheet(text, skip_comments=True, skip_whitespace=True)
    rules = tuple(reader.read(nodes, _Place()))
    return Sheet(
        rules,
        tuple(reader.imports),
        tuple(reader.layers),
        frozenset(reader.typefaces),
        tuple(reader.letters),
        reader.is_odd,
    )


def read_declarations(nodes: Iterable[Node]) -> Iterator[Declaration]:
    """Yield the declarations among nodes."""
    for node in nodes:
        if node.type == "declaration":
            is_own = node.name.startswith("--")
            value = serialize([part for part in node.value if part.type != "comment"]).strip()
            value = value if is_own else " ".join(value.lower().split())
            yield Declaration(node.name if is_own else node.lower_name, value, bool(node.important))


def _is_interrupted(parts: list[Node]) -> bool:
    """Tell whether declarations follow rules in one block: their order is then its own matter."""
    kinds = [part.type == "declaration" for part in parts if part.type != "error"]
    return False in kinds and True in kinds[kinds.index(False) :]


def nest_selector(selector: str, around: str) -> str:
    """Write a selector that stands in another rule as one that stands alone."""
    if not around:
        return selector.replace("&", ":root")
    if "&" in selector:
        return selector.replace("&", f":is({around})")
    return f":is({around}) {selector}"


def _read_address(token: Node) -> str | None:
    if token.type in {"url", "string"}:
        return str(token.value)
    if token.type == "function" and token.lower_name == "url" and len(token.arguments) == 1:
        return str(token.arguments[0].value)
    return None


def _is_layer_or_support(token: Node) -> bool:
    word = getattr(token, "lower_name", None) or getattr(token, "lower_value", None)
    return word in {"layer", "supports"}


def _is_odd_page(node: AtRule) -> bool:
    """Tell whether a sheet sets more of the paper than margins up to 4 cm (ours)."""
    parts = parse_blocks_contents(node.content or [], skip_comments=True, skip_whitespace=True)
    return any(
        part.type != "declaration"
        or part.lower_name not in _PAGE
        or any(not _is_small(token) for token in part.value)
        for part in parts
    )


def _is_small(token: Node) -> bool:
    if token.type == "number":
        return bool(token.value == 0)
    units = {"mm": 1.0, "cm": 10.0, "in": 25.4, "pt": 0.353, "px": 0.265}
    if token.type == "dimension":
        return bool(0 <= token.value * units.get(token.lower_unit, 1000.0) <= 40)
    return bool(token.type == "whitespace")
