"""`tempoleaf explain`: print what a rule asks, why, and an example of each."""

import re
import sys
from typing import Annotated

import typer
from rich.console import Console
from rich.markdown import Markdown

from builder.course.names import suggest
from builder.errors import BuilderError
from builder.findings import Rule
from builder.rules import RULES
from builder.rules.page import read_page

_FILE_FENCE = re.compile(r"^```\w+ file=(\S+)$", re.MULTILINE)
"""A terminal shows no word of a fence's first line, so that the file's name goes above it."""


def explain(
    rule: Annotated[
        str, typer.Argument(help="The id or the name of a rule, such as O102.", metavar="[RULE]")
    ] = "",
) -> None:
    """Print the page of a rule, or the list of all rules."""
    text = read_page(find_rule(rule)).text if rule else list_rules()
    if rule and sys.stdout.isatty():
        Console().print(Markdown(_FILE_FENCE.sub(r"`\1`\n\n\g<0>", text)))
    else:
        print(text.rstrip("\n"))


def find_rule(name: str) -> Rule:
    """Return the rule with an id or a name, in any case."""
    known = {key: rule for rule in RULES for key in (rule.id, rule.name)}
    found = known.get(name.upper()) or known.get(name.lower())
    if found is None:
        nearest = suggest(name.upper(), known) or suggest(name.lower(), known)
        raise BuilderError(f'no rule is called "{name}"', nearest or "see: tempoleaf explain")
    return found


def list_rules() -> str:
    """Write one line a rule: id, name and weight."""
    width = max(len(rule.name) for rule in RULES)
    return "\n".join(f"{rule.id}  {rule.name:<{width}}  {rule.severity}" for rule in RULES)
