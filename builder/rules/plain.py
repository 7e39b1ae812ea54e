"""Findings as plain data, and back: what was found once and is kept."""

from collections.abc import Iterable
from typing import Any

from builder.findings import Finding, Place
from builder.rules import RULES_BY_ID

Row = list[Any]
"""Path, line, column, rule, fact, cure and details of a finding, as JSON can hold them."""


def make_rows(findings: Iterable[Finding]) -> list[Row]:
    """Return findings as plain data."""
    return [
        [
            *(finding.place.path, finding.place.line, finding.place.column),
            *(finding.rule.id, finding.fact, finding.cure, list(finding.details)),
        ]
        for finding in findings
    ]


def take_rows(rows: Iterable[Row]) -> tuple[Finding, ...]:
    """Return the findings that plain data tells of."""
    return tuple(
        Finding(Place(path, line, column), RULES_BY_ID[rule_id], fact, cure, tuple(details))
        for path, line, column, rule_id, fact, cure, details in rows
    )
