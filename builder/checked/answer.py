"""What a check comes to."""

from dataclasses import dataclass

from builder.findings import Finding


@dataclass(frozen=True, slots=True)
class Checked:
    """What reading and checking found together."""

    findings: tuple[Finding, ...]
    lessons: int
    """How many lessons were looked at, those with faulty files included."""
