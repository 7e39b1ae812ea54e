"""Findings as one JSON object."""

import json
from collections.abc import Mapping, Sequence
from dataclasses import asdict

from builder.findings import Finding
from builder.report.summary import Summary


def write_json(
    findings: Sequence[Finding], summary: Summary, more: Mapping[str, object] | None = None
) -> str:
    """Write all findings with their parts, the summary, and what else a command tells."""
    told = [_finding(finding) for finding in findings]
    report = {"findings": told, "summary": asdict(summary), **(more or {})}
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
