"""Findings as lines of text."""

from collections.abc import Sequence

from builder.findings import Finding
from builder.report.summary import Summary


def write_text(findings: Sequence[Finding], summary: Summary) -> str:
    """Write one line a finding, its details below, and the summary last."""
    return "\n".join([*(str(finding) for finding in findings), str(summary)])
