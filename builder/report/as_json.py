"""Findings as one JSON object."""

import json
from collections.abc import Sequence
from dataclasses import asdict

from builder.findings import Finding
from builder.report.summary import Summary


def write_json(findings: Sequence[Finding], summary: Summary) -> str:
    """Write all findings with their parts, and the summary."""
    report = {"findings": [_finding(finding) for finding in findings], "summary": asdict(summary)}
    return json.dumps(report, ensure_ascii=False, indent=2)


def _finding(finding: Finding) -> dict[str, object]:
    return {
        "rule": finding.rule.id,
        "name": finding.rule.name,
        "severity": finding.rule.severity.value,
        **asdict(finding.place),
        "fact": finding.fact,
        "cure": finding.cure,
        "details": list(finding.details),
    }
