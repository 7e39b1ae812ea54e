"""The page of every rule: complete, and true of the tool."""

from datetime import date
from pathlib import Path

import pytest

from builder.checks.run import check_course
from builder.course.course import Course
from builder.findings import Finding, Rule, sort_findings
from builder.reading.course_folder import read_course
from builder.records.record_folder import read_records
from builder.rules import RULES
from builder.rules.page import PAGES, Example, RulePage, parse_page, read_page
from tests.conftest import REVIEWED_ON, WriteCourse

TODAY = date(2026, 11, 1)
"""The day that the examples are written for; reviews run out by it."""
SHOWN_ELSEWHERE = {
    rule
    for rule in RULES
    if rule.id in ("H116", "U105")
    or (rule.id.startswith(("A", "C", "E", "G", "L", "V", "X")) and rule.id not in ("C103", "G107"))
}
"""Rules whose fault only a finished card or site or a whole second language can show, or no text
can; see their own tests."""
CHECKED = [rule for rule in RULES if rule not in SHOWN_ELSEWHERE]
NAMES = [rule.id for rule in CHECKED]


def find_all(root: Path) -> str:
    reading = read_course(root, today=TODAY)
    checked = check_course(reading.course) if reading.course else ()
    recorded = find_in_records(root, reading.course) if reading.course else ()
    return "\n".join(map(str, sort_findings((*reading.findings, *checked, *recorded))))


def find_in_records(root: Path, course: Course) -> tuple[Finding, ...]:
    folder = root / "program"
    return read_records(folder, course, today=TODAY).findings if folder.is_dir() else ()


def test_every_rule_has_one_page_and_every_page_a_rule() -> None:
    assert {path.stem for path in PAGES.glob("*.md")} == {rule.id for rule in RULES}


@pytest.mark.parametrize("rule", RULES, ids=[rule.id for rule in RULES])
def test_a_page_says_what_why_wrong_and_right(rule: Rule) -> None:
    text = (PAGES / f"{rule.id}.md").read_text(encoding="utf-8")
    headings = [line for line in text.split("\n") if line.startswith(("# ", "## "))]
    page = read_page(rule)
    assert text.startswith(f"# {rule.id} {rule.name}\n")
    assert [line for line in headings if line in _PARTS] == _PARTS
    assert len(page.what.split()) > 5
    assert len(page.why.split()) > 5


@pytest.mark.parametrize("rule", CHECKED, ids=NAMES)
def test_wrong_examples_give_just_the_findings_of_the_page(
    rule: Rule, write_course: WriteCourse
) -> None:
    examples = read_page(rule).wrong
    assert examples
    for number, example in enumerate(examples):
        found = find_all(write_course(example.files, f"wrong-{number}", REVIEWED_ON))
        assert found == example.findings
        assert f" {rule.id} {rule.name}: " in found


@pytest.mark.parametrize("rule", CHECKED, ids=NAMES)
def test_the_right_example_gives_no_finding(rule: Rule, write_course: WriteCourse) -> None:
    right = read_page(rule).right
    assert right.files
    assert find_all(write_course(right.files, reviewed_on=REVIEWED_ON)) == ""


def test_a_page_comes_apart_into_its_examples() -> None:
    text = (
        "# W104 long-cue\n\n## What\nA cue.\n\n## Why\nBreath.\n\n"
        "## Wrong\nLook:\n\n```yaml file=a.md\none\n```\n\n```text findings\na.md:1:1: x\n```\n\n"
        "```yaml file=b.md\ntwo\n```\n\n```yaml file=c.md\nthree\n```\n\n"
        "```text findings\nb.md:1:1: y\n    more\n```\n\n"
        "## Right\n```yaml file=a.md\nfour\n```\n"
    )
    rule = Rule("W104", "long-cue")
    assert parse_page(rule, text) == RulePage(
        rule=rule,
        text=text,
        what="A cue.",
        why="Breath.",
        wrong=(
            Example({"a.md": "one\n"}, "a.md:1:1: x"),
            Example({"b.md": "two\n", "c.md": "three\n"}, "b.md:1:1: y\n    more"),
        ),
        right=Example({"a.md": "four\n"}, ""),
    )


_PARTS = ["## What", "## Why", "## Wrong", "## Right"]
