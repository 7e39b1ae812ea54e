"""All rules of a page's style sheets, and which of them an element falls under."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import lru_cache

from builder.publishing.proof.safety.styles.conditions import Condition, Screen, list_screens
from builder.publishing.proof.safety.styles.elements import PageElement
from builder.publishing.proof.safety.styles.harmless import HARMLESS
from builder.publishing.proof.safety.styles.judged import is_judged
from builder.publishing.proof.safety.styles.matches import Match, Rule
from builder.publishing.proof.safety.styles.selectors import (
    Selector,
    read_foreign_selectors,
    read_own_selectors,
)
from builder.publishing.proof.safety.styles.sheets import Declaration, Sheet, SheetRule

_MOST_CONDITIONS = 100
"""Of sheets that aren't ours; with more of them a page counts as not understood (ours)."""
_ALWAYS_ASKED = frozenset({"class", "id", "dir", "lang", "type", "checked", "selected"})
"""Attributes that the matcher looks at without their being written in brackets; of addresses it
asks only whether there is one."""


@dataclass(frozen=True, slots=True)
class LaidSheet:
    """A sheet as a page loads it."""

    sheet: Sheet
    is_ours: bool
    """Whether it is the tool's or the theme's own, byte for byte."""
    conditions: tuple[Condition, ...] = ()


class Rulebook:
    """Finds the rules that elements fall under."""

    def __init__(self, sheets: Sequence[LaidSheet]) -> None:
        foreign = {c for laid in sheets if not laid.is_ours for c in _list_conditions(laid)}
        is_endless = len(foreign) > _MOST_CONDITIONS
        if is_endless:
            sheets = [laid for laid in sheets if laid.is_ours]
        self.is_odd = is_endless or any(laid.sheet.is_odd and not laid.is_ours for laid in sheets)
        self.typefaces = frozenset[str]().union(
            *(each.sheet.typefaces for each in sheets if not each.is_ours)
        )
        self.screens = list_screens({c for laid in sheets for c in _list_conditions(laid)})
        self.foreign: list[Match] = []
        self.unsure: list[Match] = []
        self.placed: list[Match] = []
        self.low: list[Match] = []
        self._by_key: dict[str, list[Match]] = {}
        self._by_family: dict[str, list[Match]] = {}
        self._named = set(_ALWAYS_ASKED)
        self._known: dict[object, tuple[int, tuple[Match, ...]]] = {}
        self._count = 0
        layers = _rank_layers(sheets)
        self._bits: dict[Condition, tuple[int, int]] = {}
        for laid in sheets:
            for rule in laid.sheet.rules:
                self._add(laid, rule, layers)

    def find_matches(self, element: PageElement) -> tuple[Match, ...]:
        """Return all rules that an element falls under."""
        if element.matches is None:
            family = tuple(self._search(self._by_family, element))
            element.matches = self.find_plain(element)[1] + family
        return element.matches

    def find_plain(self, element: PageElement) -> tuple[int, tuple[Match, ...]]:
        """Look up what depends on the element and on all it stands in, once for all that are alike.

        The number stands for the element with all it stands in.
        """
        if element.plain is not None:
            return element.plain
        above = self.find_plain(element.parent)[0] if element.parent is not None else -1
        asked = tuple(
            (name, value if name in self._named else "")
            for name, value in element.attrib.items()
            if name in self._named or name == "href"
        )
        key = (above, element.local_name, asked)
        found = self._known.get(key)
        if found is None:
            found = (len(self._known), tuple(self._search(self._by_key, element)))
            self._known[key] = found
        element.plain = found
        return found

    def _search(self, matches: dict[str, list[Match]], element: PageElement) -> list[Match]:
        above = () if element.parent is None else element.parent.keys
        return [
            match
            for key in ("", *element.keys, *(f">{key}" for key in above))
            for match in matches.get(key, ())
            if match.selector.matches(element)
        ]

    def _add(self, laid: LaidSheet, rule: SheetRule, layers: dict[str, int]) -> None:
        declarations = _list_telling(rule.declarations, is_ours=laid.is_ours)
        if not declarations:
            return
        if laid.is_ours:
            selectors, is_exact = read_own_selectors(rule.selector), True
        else:
            selectors, is_exact = read_foreign_selectors(rule.selector)
        holds, unknown = self._weigh((*laid.conditions, *rule.conditions))
        is_sure = laid.is_ours or (is_exact and not rule.is_loose and not unknown)
        if laid.is_ours and rule.is_loose:
            return  # what the theme does for single browsers
        rank = layers[rule.layer] if rule.layer else len(layers)
        self._count += 1
        order = (rank, self._count)
        screens = holds if is_sure else holds | unknown
        new = Rule(declarations, screens, laid.is_ours, is_sure, order)
        for selector in selectors if screens else ():
            self._file(selector, new)

    def _file(self, selector: Selector, rule: Rule) -> None:
        shelf = self._by_family if selector.is_by_family else self._by_key
        match = Match(rule, selector)
        shelf.setdefault(selector.key, []).append(match)
        self._named |= selector.named
        if not rule.is_ours:
            self.foreign.append(match)
            if not rule.is_sure or selector.part is not None:
                self.unsure.append(match)
            return
        names = {each.name for each in rule.declarations}
        if "position" in names:
            self.placed.append(match)
        if not names.isdisjoint({"height", "max-height"}):
            self.low.append(match)

    def _weigh(self, conditions: Iterable[Condition]) -> tuple[int, int]:
        """Return on which screens all conditions hold, and on which that is unknown."""
        holds, unknown = (1 << len(self.screens)) - 1, 0
        for condition in conditions:
            if condition not in self._bits:
                self._bits[condition] = _ask(condition, self.screens)
            yes, maybe = self._bits[condition]
            holds, unknown = holds & yes, (holds | unknown) & (yes | maybe) & ~(holds & yes)
        return holds, unknown


@lru_cache(maxsize=16)
def make_rulebook(sheets: tuple[LaidSheet, ...]) -> Rulebook:
    """Return the rulebook of style sheets, once for all pages that load the same."""
    return Rulebook(sheets)


def _ask(condition: Condition, screens: Sequence[Screen]) -> tuple[int, int]:
    answers = [condition.holds_on(screen) for screen in screens]
    yes = sum(1 << bit for bit, answer in enumerate(answers) if answer)
    return yes, sum(1 << bit for bit, answer in enumerate(answers) if answer is None)


def _list_conditions(laid: LaidSheet) -> Iterable[Condition]:
    yield from laid.conditions
    for rule in laid.sheet.rules:
        yield from rule.conditions


def _rank_layers(sheets: Iterable[LaidSheet]) -> dict[str, int]:
    names = dict.fromkeys(name for laid in sheets for name in laid.sheet.layers)
    return {name: rank for rank, name in enumerate(names)}


def _list_telling(
    declarations: tuple[Declaration, ...], *, is_ours: bool
) -> tuple[Declaration, ...]:
    """Leave out what can do no harm."""
    if is_ours:
        return tuple(d for d in declarations if d.name.startswith("--") or is_judged(d.name))
    return tuple(d for d in declarations if d.name not in HARMLESS)
