"""The author guide: how to write a lesson, and a page for every rule."""

import re

from builder import rules
from builder.findings import Rule
from builder.publishing.pages.links import AUTHORS, Site, relative_source, rule_page
from builder.publishing.pages.templates import render_block, render_page, write_header
from builder.rules.page import PAGES, read_page

FAMILIES = {
    "H": "Headers and files",
    "O": "Order",
    "D": "Demand",
    "T": "Tempo",
    "S": "Dose",
    "N": "Notices",
    "W": "Words",
    "P": "Props",
    "F": "Figures",
    "C": "Cards",
    "A": "PDFs for those who don't see them",
    "L": "Links",
    "R": "Releases",
    "G": "Languages",
    "K": "Records kept of people",
    "V": "Privacy",
    "X": "Limits",
    "U": "What others wrote",
    "E": "Evidence in a finished site",
}
"""What the first letter of a rule's id stands for."""
_FOUND_LAST = "search: {boost: 0.1}"
"""Example lessons on rule pages must not come before the lessons that learners look for."""
_FENCE = re.compile(r"^```(\w+) (?:file=(\S+)|(findings))[ \t]*$", re.MULTILINE)


def make_rule_page(site: Site, rule: Rule) -> str | None:
    """Write a rule's page for the site; nothing where the rule has no page yet."""
    if not (PAGES / f"{rule.id}.md").is_file():
        return None
    text = _FENCE.sub(_caption, read_page(rule).text).strip()
    title, _, body = text.partition("\n")
    parts = (
        write_header(f"{rule.id} {rule.name}", for_theme=_FOUND_LAST),
        title,
        f'<p class="tl-small">Kind: {rule.severity}. {_WEIGHTS[rule.severity]}</p>',
        body.strip(),
        f"[All rules]({relative_source(rule_page(rule.id), AUTHORS)}#rules)",
        render_block("end.html", site.language, caution=site.course.settings.caution),
    )
    return "\n\n".join(parts) + "\n"


def make_author_guide(site: Site, pages: frozenset[str]) -> str:
    """Write the author guide's first page; rules link to those pages that exist."""
    families = [
        (name, [_row(rule, pages) for rule in rules.RULES if rule.id.startswith(letter)])
        for letter, name in FAMILIES.items()
    ]
    return render_page(
        "authors.md",
        site.language,
        header=write_header("Author guide", "How to write a lesson, and every rule it must keep."),
        families=families,
        blocks=sorted(_BLOCK_USES.items()),
        caution=site.course.settings.caution,
    )


_WEIGHTS = {
    "error": "It stops a publish.",
    "warning": "It stops a publish under strict.",
    "note": "It never stops anything.",
}
_BLOCK_USES = {
    "course-map": "the drawn map of the course",
    "map-list": "the map as a list",
    "strand-list": "the strands in teaching order",
    "prop-table": "every prop with its stand-in",
    "notice-list": "every caution in full",
    "demand-chart": "what each lesson asks, on eight axes",
}


def _row(rule: Rule, pages: frozenset[str]) -> dict[str, str]:
    page = rule_page(rule.id)
    href = relative_source(AUTHORS, page) if page in pages else ""
    return {"id": rule.id, "name": rule.name, "kind": rule.severity.value, "href": href}


def _caption(match: re.Match[str]) -> str:
    """Show the file's name above its text; fences of other hosts take a language only."""
    caption = match[2] or "What the check says"
    return f'<p class="tl-file">{caption}</p>\n\n```{match[1]}'
