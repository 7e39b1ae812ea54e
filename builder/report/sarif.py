"""Findings in SARIF 2.1.0, the OASIS standard for the results of static analysis."""

import json
from collections.abc import Sequence
from urllib.parse import quote

from builder import __version__
from builder.findings import Finding, Place, Rule
from builder.rules.page import read_page

_SCHEMA = (
    "https://docs.oasis-open.org/sarif/sarif/v2.1.0/errata01/os/schemas/sarif-schema-2.1.0.json"
)
_ROOT = "%SRCROOT%"


def write_sarif(findings: Sequence[Finding]) -> str:
    """Write one run with its rules and results."""
    rules = sorted({finding.rule for finding in findings}, key=lambda rule: rule.id)
    places = {rule: index for index, rule in enumerate(rules)}
    run = {
        "tool": {
            "driver": {
                "name": "tempoleaf",
                "version": __version__,
                "rules": [_rule(rule) for rule in rules],
            }
        },
        "columnKind": "unicodeCodePoints",
        "results": [_result(finding, places[finding.rule]) for finding in findings],
    }
    report = {"$schema": _SCHEMA, "version": "2.1.0", "runs": [run]}
    return json.dumps(report, ensure_ascii=False, indent=2)


def _rule(rule: Rule) -> dict[str, object]:
    page = read_page(rule)
    return {
        "id": rule.id,
        "name": rule.name,
        "shortDescription": {"text": rule.name.replace("-", " ")},
        "fullDescription": {"text": page.what},
        "help": {"text": f"{page.what}\n\n{page.why}", "markdown": page.text},
        "defaultConfiguration": {"level": rule.severity.value},
    }


def _result(finding: Finding, rule_index: int) -> dict[str, object]:
    message = "\n".join((f"{finding.fact}; {finding.cure}.", *finding.details))
    return {
        "ruleId": finding.rule.id,
        "ruleIndex": rule_index,
        "level": finding.rule.severity.value,
        "message": {"text": message},
        "locations": [{"physicalLocation": _location(finding.place)}],
    }


def _location(place: Place) -> dict[str, object]:
    return {
        "artifactLocation": {"uri": quote(place.path), "uriBaseId": _ROOT},
        "region": {"startLine": place.line, "startColumn": place.column},
    }
