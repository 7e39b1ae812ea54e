"""Findings as lines of text, with colour where a terminal shows it."""

from collections.abc import Sequence

from rich.text import Text

from builder.findings import Finding, Severity
from builder.report.summary import Summary

_STYLES = {Severity.ERROR: "bold red", Severity.WARNING: "bold yellow", Severity.NOTE: "bold cyan"}


def write_text(findings: Sequence[Finding], summary: Summary) -> str:
    """Write one line a finding, its details below, and the summary last."""
    return "\n".join([*(str(finding) for finding in findings), str(summary)])


def style_text(findings: Sequence[Finding], summary: Summary) -> Text:
    """Write the same letters as write_text does, with colour."""
    text = Text()
    for finding in findings:
        text.append(_style_finding(finding))
        text.append("\n")
    return text.append(str(summary), style="bold")


def _style_finding(finding: Finding) -> Text:
    text = Text(str(finding))
    place = len(str(finding.place))
    rule = place + 2 + len(f"{finding.rule.id} {finding.rule.name}")
    first_line = str(finding).find("\n")
    text.stylize("bold", 0, place)
    text.stylize(_STYLES[finding.rule.severity], place + 2, rule)
    if first_line != -1:
        text.stylize("dim", first_line)
    return text
