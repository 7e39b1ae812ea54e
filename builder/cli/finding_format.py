"""How commands print findings: for people, for programs, for hosts of code."""

import sys
from collections.abc import Mapping, Sequence
from enum import StrEnum

from builder.findings import Finding
from builder.report.as_json import write_json
from builder.report.github import write_annotations
from builder.report.sarif import write_sarif
from builder.report.summary import Summary
from builder.report.text import write_text


class Format(StrEnum):
    """The forms that findings can be printed in."""

    TEXT = "text"
    JSON = "json"
    SARIF = "sarif"
    GITHUB = "github"


def print_findings(
    form: Format,
    findings: Sequence[Finding],
    summary: Summary,
    more: Mapping[str, object] | None = None,
) -> None:
    """Print findings in a form; JSON has ``more`` beside them."""
    if form is Format.TEXT and sys.stdout.isatty():
        from builder.report.styled import print_styled  # noqa: PLC0415  # for terminals only

        print_styled(findings, summary)
    elif form is Format.TEXT:
        print(write_text(findings, summary))
    elif form is Format.JSON:
        print(write_json(findings, summary, more))
    elif form is Format.SARIF:
        print(write_sarif(findings))
    else:
        print(write_annotations(findings, summary))
