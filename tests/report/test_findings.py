"""Findings as text, JSON, SARIF and workflow commands."""

import json

import pytest

from builder import rules
from builder.findings import Finding, Place, Severity
from builder.report.as_json import write_json
from builder.report.github import write_annotations
from builder.report.sarif import write_sarif
from builder.report.styled import style_text
from builder.report.summary import Summary, summarise
from builder.report.text import write_text

ERROR = rules.DEMAND_JUMP.at(
    Place("content/lessons/count/a b.md", 7, 8), '"100 %": a, b', "mend it", "row 1", "row 2"
)
WARNING = rules.LONG_CUE.at(Place("content/course.yml"), "too long", "shorten it")
FINDINGS = (WARNING, ERROR)
SUMMARY = Summary(errors=1, warnings=1, notes=0, lessons=21)


def test_a_name_cannot_act_on_the_terminal_or_break_its_line() -> None:
    finding = rules.ID_MALFORMED.at(
        Place("a\nb\udcff.md"), 'the file name "\x1b[31m\u202eb\n::error::" is no id', "rename it"
    )
    line = (
        "a\\nb\\udcff.md:1:1: H108 id-malformed: "
        'the file name "\\x1b[31m\\u202eb\\n::error::" is no id; rename it.'
    )
    assert str(finding) == line
    for report in (
        write_text([finding], SUMMARY),
        write_json([finding], SUMMARY),
        write_sarif([finding]),
        write_annotations([finding], SUMMARY),
    ):
        report.encode("utf-8")
        assert "\x1b" not in report
        assert "\u202e" not in report
    assert write_annotations([finding], SUMMARY).count("\n") == 1


@pytest.mark.parametrize("text", ["é – “x” 🧘\u200d♂", "שלום\u200f", "soft\u00adhyphen"])
def test_signs_that_only_look_like_signs_stay_as_they_are(text: str) -> None:
    assert rules.LONG_CUE.at(Place(text), text, text).fact == text


@pytest.mark.parametrize(
    ("summary", "text"),
    [
        (Summary(0, 0, 0, 5), "no findings in 5 lessons"),
        (Summary(2, 1, 0, 21), "2 errors, 1 warning in 21 lessons"),
        (Summary(1, 0, 2, 1), "1 error, 2 notes in 1 lesson"),
    ],
)
def test_the_summary_counts_in_words(summary: Summary, text: str) -> None:
    assert str(summary) == text


def test_findings_are_counted_by_weight() -> None:
    assert summarise((ERROR, WARNING, WARNING), 3) == Summary(1, 2, 0, 3)


def test_text_is_one_line_a_finding_with_its_details_below() -> None:
    assert write_text(FINDINGS, SUMMARY) == (
        "content/course.yml:1:1: W104 long-cue: too long; shorten it.\n"
        'content/lessons/count/a b.md:7:8: D102 demand-jump: "100 %": a, b; mend it.\n'
        "    row 1\n"
        "    row 2\n"
        "1 error, 1 warning in 21 lessons"
    )


def test_colour_changes_no_letter() -> None:
    styled = style_text(FINDINGS, SUMMARY)
    assert styled.plain == write_text(FINDINGS, SUMMARY)
    assert {"bold red", "bold yellow"} <= {str(span.style) for span in styled.spans}


def test_json_holds_every_part_of_a_finding() -> None:
    report = json.loads(write_json(FINDINGS, SUMMARY))
    assert report["summary"] == {"errors": 1, "warnings": 1, "notes": 0, "lessons": 21}
    assert report["findings"][1] == {
        "rule": "D102",
        "name": "demand-jump",
        "severity": "error",
        "path": "content/lessons/count/a b.md",
        "line": 7,
        "column": 8,
        "fact": '"100 %": a, b',
        "cure": "mend it",
        "details": ["row 1", "row 2"],
    }


# OASIS Static Analysis Results Interchange Format 2.1.0 (2020), sections 3.13, 3.14, 3.19, 3.27
# and 3.30: the properties that must be there, and the levels that may be.
def test_sarif_has_what_the_standard_requires() -> None:
    log = json.loads(write_sarif(FINDINGS))
    (run,) = log["runs"]
    driver = run["tool"]["driver"]
    assert log["version"] == "2.1.0"
    assert log["$schema"].endswith("/sarif-schema-2.1.0.json")
    assert driver["name"] == "tempoleaf"
    assert [rule["id"] for rule in driver["rules"]] == ["D102", "W104"]
    for result in run["results"]:
        (location,) = result["locations"]
        region = location["physicalLocation"]["region"]
        assert driver["rules"][result["ruleIndex"]]["id"] == result["ruleId"]
        assert result["level"] in {"none", "note", "warning", "error"}
        assert result["message"]["text"]
        assert region["startLine"] >= 1
        assert region["startColumn"] >= 1


def test_sarif_paths_are_relative_addresses() -> None:
    results = json.loads(write_sarif((ERROR,)))["runs"][0]["results"]
    assert results[0]["locations"][0]["physicalLocation"] == {
        "artifactLocation": {"uri": "content/lessons/count/a%20b.md", "uriBaseId": "%SRCROOT%"},
        "region": {"startLine": 7, "startColumn": 8},
    }
    assert results[0]["message"]["text"] == '"100 %": a, b; mend it.\nrow 1\nrow 2'


def test_sarif_of_a_clean_course_has_a_run_without_results() -> None:
    (run,) = json.loads(write_sarif(()))["runs"]
    assert run["results"] == []


# GitHub's documentation of workflow commands: %, CR and LF are escaped in messages, and : and ,
# in properties besides (from memory).
def test_workflow_commands_escape_what_would_end_them() -> None:
    assert write_annotations(FINDINGS, SUMMARY).split("\n") == [
        "::warning file=content/course.yml,line=1,col=1,title=W104 long-cue::too long; shorten it.",
        "::error file=content/lessons/count/a b.md,line=7,col=8,title=D102 demand-jump::"
        '"100 %25": a, b; mend it.%0Arow 1%0Arow 2',
        "1 error, 1 warning in 21 lessons",
    ]


def test_a_path_with_a_comma_stays_in_its_property() -> None:
    found = Finding(Place("a,b:c.md"), rules.LONG_CUE, "x", "y")
    assert "file=a%2Cb%3Ac.md," in write_annotations((found,), SUMMARY)


def test_every_weight_has_a_command_and_a_colour() -> None:
    for severity in Severity:
        rule = rules.Rule("X001", "test-rule", severity)
        found = rule.at(Place("a.md"), "x", "y")
        assert write_annotations((found,), SUMMARY).startswith("::")
        assert style_text((found,), SUMMARY).plain.startswith("a.md:1:1: X001")
