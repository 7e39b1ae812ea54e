"""What an author can mend, as data: places, rules and findings."""

import re
from collections.abc import Iterable
from dataclasses import dataclass, replace
from enum import StrEnum

_UNSHOWN = re.compile(
    "[\x00-\x1f\x7f-\x9f\u200b\u2028\u2029\u202a-\u202e\u2060\u2066-\u2069\ud800-\udfff\ufeff]"
)
"""Signs that move the cursor, turn the reading direction, end a line or can't be written."""


class Severity(StrEnum):
    """How much a finding weighs."""

    ERROR = "error"
    """Stops a publish."""
    WARNING = "warning"
    """Stops a publish under strict."""
    NOTE = "note"
    """Never stops anything."""


@dataclass(frozen=True, slots=True, order=True)
class Place:
    """A spot in a file: path from the project's folder, line and column from 1."""

    path: str
    line: int = 1
    column: int = 1

    def __str__(self) -> str:
        return f"{self.path}:{self.line}:{self.column}"


@dataclass(frozen=True, slots=True)
class Rule:
    """A fault that can be found, named after the fault."""

    id: str
    """A family letter and three digits; never used twice."""
    name: str
    """Reads well after the word "allow"."""
    severity: Severity = Severity.ERROR

    def at(self, place: Place, fact: str, cure: str, *details: str) -> "Finding":
        """Make the finding that this rule is broken at a place."""
        shown = replace(place, path=spell_out(place.path))
        return Finding(shown, self, spell_out(fact), spell_out(cure), details)


@dataclass(frozen=True, slots=True)
class Finding:
    """One fault at one place, with what to do about it."""

    place: Place
    rule: Rule
    fact: str
    """What is so, in lower case, the author's own text in quotes."""
    cure: str
    """What to do, as an imperative without a full stop."""
    details: tuple[str, ...] = ()
    """Further lines, such as two rows to compare."""

    def __str__(self) -> str:
        line = f"{self.place}: {self.rule.id} {self.rule.name}: {self.fact}; {self.cure}."
        return "\n    ".join((line, *self.details))

    @property
    def sort_key(self) -> tuple[Place, str, str, str]:
        """Order by place, then by rule, so that each run prints the same."""
        return (self.place, self.rule.id, self.fact, self.cure)


def spell_out(text: str) -> str:
    """Write signs that a terminal would act on as escapes, so that a line stays a line."""
    return _UNSHOWN.sub(lambda found: ascii(found[0])[1:-1], text)


def sort_findings(findings: Iterable[Finding]) -> tuple[Finding, ...]:
    """Put findings in their fixed order, each once."""
    return tuple(sorted(set(findings), key=lambda finding: finding.sort_key))


def stops_publishing(finding: Finding, *, strict: bool) -> bool:
    """Tell whether a finding stands in the way of publishing."""
    if finding.rule.severity is Severity.ERROR:
        return True
    return strict and finding.rule.severity is Severity.WARNING
