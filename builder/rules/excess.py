"""Findings about inputs beyond a limit: what was found, the limit, and what to do."""

from builder import rules
from builder.findings import Finding, Place
from builder.input_limits import InputLimit, Measure

_RULES = {
    Measure.SIZE: rules.INPUT_TOO_LARGE,
    Measure.DEPTH: rules.INPUT_TOO_DEEP,
    Measure.COUNT: rules.INPUT_TOO_MANY,
    Measure.TIME: rules.MADE_TOO_LONG,
}
EXCESS = frozenset(_RULES.values())
"""The rules of inputs that aren't read on."""


def word_excess(subject: str, limit: InputLimit, found: int) -> str:
    """Say that something has more of a unit than its limit."""
    return f"{subject} has {found} {limit.unit}, more than {limit.most}"


def tell_excess(
    place: Place, limit: InputLimit, found: int, cure: str, subject: str = "this"
) -> Finding:
    """Make the finding that an input goes beyond its limit."""
    return _RULES[limit.measure].at(place, word_excess(subject, limit, found), cure)
