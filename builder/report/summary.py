"""How many findings of each weight there are, in one line."""

from collections.abc import Iterable
from dataclasses import dataclass

from builder.findings import Finding, Severity
from builder.report.counted import count


@dataclass(frozen=True, slots=True)
class Summary:
    """The findings of a run by number."""

    errors: int
    warnings: int
    notes: int
    lessons: int
    """How many lessons were looked at, those with faulty files included."""

    def __str__(self) -> str:
        counts = (("error", self.errors), ("warning", self.warnings), ("note", self.notes))
        parts = [count(number, word) for word, number in counts if number]
        return f"{', '.join(parts) or 'no findings'} in {count(self.lessons, 'lesson')}"


def summarise(findings: Iterable[Finding], lessons: int) -> Summary:
    """Count findings by weight."""
    weights = [finding.rule.severity for finding in findings]
    return Summary(
        weights.count(Severity.ERROR),
        weights.count(Severity.WARNING),
        weights.count(Severity.NOTE),
        lessons,
    )
