"""Rules with the selectors by which elements fall under them."""

from dataclasses import dataclass

from builder.publishing.proof.safety.styles.selectors import Selector
from builder.publishing.proof.safety.styles.sheets import Declaration


@dataclass(frozen=True, slots=True, eq=False)
class Rule:
    """Declarations, and where they hold."""

    declarations: tuple[Declaration, ...]
    screens: int
    """One bit for each screen of the rulebook on which the rule holds."""
    is_ours: bool
    is_sure: bool
    """Whether it surely holds where it is said to; what is ours always counts as sure."""
    order: tuple[int, int]
    """Rank of its layer, and its place among all rules."""


@dataclass(frozen=True, slots=True, eq=False)
class Match:
    """A rule with one of its selectors."""

    rule: Rule
    selector: Selector
