"""Findings as lines of text with colour, as a terminal shows them."""

from collections.abc import Sequence

from rich.console import Console
from rich.text import Text

from builder.findings import Finding, Severity
from builder.report.summary import Summary

_STYLES = {Severity.ERROR: "bold red", Severity.WARNING: "bold yellow", Severity.NOTE: "bold cyan"}


def print_styled(findings: Sequence[Finding], summary: Summary) -> None:
    """Print findings and summary in colour, each on lines as long as it needs."""
    Console(soft_wrap=True, highlight=False).print(style_text(findings, summary))


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
