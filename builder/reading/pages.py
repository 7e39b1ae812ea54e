"""The ordinary pages of a course, and the glossary among them."""

import re
from collections.abc import Iterable
from dataclasses import dataclass

from builder.findings import Finding
from builder.reading.text_file import TextFile, split_header
from builder.reading.yaml_tree import read_yaml

GLOSSARY_PAGE = "glossary.md"
_TERM = re.compile(r"^#{2,4}\s+(.+?)\s*$")
_HEADING = re.compile(r"^#\s+(.+?)\s*$", re.MULTILINE)


@dataclass(frozen=True, slots=True)
class Page:
    """An ordinary Markdown page that the studio wrote."""

    path: str
    """From the content folder, with forward slashes."""
    title: str
    description: str
    markdown: str
    """The text below the header."""
    first_line: int
    """The line of the file on which the text begins."""


def read_page_text(text: str, name: str, path: str) -> tuple[Page | None, list[Finding]]:
    """Read an ordinary page, which may begin with a header; ``name`` is its file."""
    file: TextFile | None = TextFile(name, "", 1, text, 1)
    findings: list[Finding] = []
    if text.startswith("---\n"):
        file, findings = split_header(text, name)
    page, more = read_page(file, path) if file else (None, [])
    return page, [*findings, *more]


def read_page(file: TextFile, path: str) -> tuple[Page | None, list[Finding]]:
    """Read an ordinary page; its title comes from the header or from its first heading."""
    values: dict[str, object] = {}
    if file.header:
        tree, findings = read_yaml(file.header, file.path, file.header_line)
        if tree is None or findings:
            return None, findings
        values = dict(tree.values)
    heading = _HEADING.search(file.body)
    fallback = heading[1] if heading else path.rpartition("/")[2].removesuffix(".md")
    title = str(values.get("title") or fallback)
    description = str(values.get("description") or "")
    return Page(path, title, description, file.body, file.body_line), []


def read_glossary(pages: Iterable[Page]) -> dict[str, str]:
    """Return the glossary's terms, each a heading with the paragraph below it."""
    glossary: dict[str, str] = {}
    page = next((page for page in pages if page.path == GLOSSARY_PAGE), None)
    term = ""
    for line in page.markdown.split("\n") if page else ():
        heading = _TERM.match(line)
        if heading:
            term = heading[1]
        elif term and line.strip():
            glossary[term] = f"{glossary.get(term, '')} {line.strip()}".strip()
        elif glossary.get(term):
            term = ""
    return glossary
