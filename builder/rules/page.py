"""The page of a rule: what, why, and examples that are its test cases too."""

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from pathlib import Path

from builder.errors import BuilderError
from builder.findings import Rule

PAGES = Path(__file__).resolve().parent / "pages"

_PART = re.compile(r"^## (What|Why|Wrong|Right)[ \t]*\n", re.MULTILINE)
_FENCE = re.compile(r"^```(?P<info>[^\n`]+)\n(?P<body>.*?)^```[ \t]*$", re.MULTILINE | re.DOTALL)
_FILE = re.compile(r"\bfile=(\S+)")


@dataclass(frozen=True, slots=True)
class Example:
    """Files laid over a course that is sound, and what they give."""

    files: Mapping[str, str]
    """Whole files by their path from the project's folder."""
    findings: str
    """What a check prints for them, word for word; empty where nothing is wrong."""


@dataclass(frozen=True, slots=True)
class RulePage:
    """One rule as its page tells it."""

    rule: Rule
    text: str
    """The whole page as Markdown."""
    what: str
    why: str
    wrong: tuple[Example, ...]
    """None where only a finished card or site can show the fault."""
    right: Example


def read_page(rule: Rule) -> RulePage:
    """Read the page that is shipped for a rule."""
    path = PAGES / f"{rule.id}.md"
    if not path.is_file():
        raise BuilderError(f"the page of rule {rule.id} is missing", "install tempoleaf again")
    return parse_page(rule, path.read_text(encoding="utf-8"))


def parse_page(rule: Rule, text: str) -> RulePage:
    """Take the page of a rule apart."""
    _, *pieces = _PART.split(text)
    parts = {name: body.strip() for name, body in zip(pieces[::2], pieces[1::2], strict=True)}
    right: dict[str, str] = {}
    for example in _read_examples(parts.get("Right", "")):
        right |= example.files
    return RulePage(
        rule,
        text,
        parts.get("What", ""),
        parts.get("Why", ""),
        tuple(example for example in _read_examples(parts.get("Wrong", "")) if example.findings),
        Example(right, ""),
    )


def _read_examples(text: str) -> Iterator[Example]:
    """Yield the files up to each block of findings, then the files that are left."""
    files: dict[str, str] = {}
    for fence in _FENCE.finditer(text):
        named = _FILE.search(fence["info"])
        if named:
            files[named[1]] = fence["body"]
        elif fence["info"].split() == ["text", "findings"]:
            yield Example(files, fence["body"].strip("\n"))
            files = {}
    if files:
        yield Example(files, "")
