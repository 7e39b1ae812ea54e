"""Findings as workflow commands, which GitHub shows beside the changed lines."""

from collections.abc import Sequence

from builder.findings import Finding, Severity
from builder.report.summary import Summary

_COMMANDS = {Severity.ERROR: "error", Severity.WARNING: "warning", Severity.NOTE: "notice"}


def write_annotations(findings: Sequence[Finding], summary: Summary) -> str:
    """Write one workflow command a finding, and the summary last."""
    return "\n".join([*(_annotate(finding) for finding in findings), str(summary)])


def _annotate(finding: Finding) -> str:
    place, rule = finding.place, finding.rule
    properties = {
        "file": place.path,
        "line": str(place.line),
        "col": str(place.column),
        "title": f"{rule.id} {rule.name}",
    }
    named = ",".join(f"{name}={_escape_property(value)}" for name, value in properties.items())
    message = "\n".join((f"{finding.fact}; {finding.cure}.", *finding.details))
    return f"::{_COMMANDS[rule.severity]} {named}::{_escape(message)}"


def _escape(text: str) -> str:
    return text.replace("%", "%25").replace("\r", "%0D").replace("\n", "%0A")


def _escape_property(text: str) -> str:
    return _escape(text).replace(":", "%3A").replace(",", "%2C")
