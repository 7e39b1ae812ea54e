"""Findings in the pages of a live preview: a panel on top, fuller on the page concerned."""

from collections.abc import Mapping, Sequence
from pathlib import PurePosixPath

from builder.course.course import Colours, Course
from builder.findings import Finding
from builder.language import language_of
from builder.publishing.pages.assets import make_assets
from builder.publishing.pages.links import HOME, SAFETY, lesson_page
from builder.publishing.pages.templates import escape_markdown, render_block, write_header
from builder.publishing.views.wording import word_count

Made = Mapping[str, str | bytes]
_AUTHORS = "en"
"""Findings are for authors, and in English as rules are."""
_HEADER_END = "\n---\n"


def make_bare_pages() -> Made:
    """Return what a preview shows while the course file itself can't be read."""
    text = "The course file can't be read, so there is nothing else to show yet."
    home = f"{write_header('Preview')}\n\n# Preview\n\n{text}\n"
    return {HOME: home, **make_assets(Colours(), "en")}


def add_findings(
    made: Made, findings: Sequence[Finding], course: Course | None, content: str
) -> Made:
    """Put a panel of findings on every page; a lesson that can't be read gets a page for it."""
    if not findings:
        return made
    homes = {lesson.path: lesson_page(lesson) for lesson in course.lessons} if course else {}
    owners = [homes.get(f.place.path) or _page_of(f.place.path, content) for f in findings]
    pages = {**{page: _make_stub(page) for page in owners}, **made}
    pairs = list(zip(findings, owners, strict=True))
    elsewhere = _write_panel(pairs, "")
    panels = {owner: _write_panel(pairs, owner) for owner in dict.fromkeys(owners)}
    return {
        path: _add_panel(text, panels.get(path, elsewhere)) if isinstance(text, str) else text
        for path, text in pages.items()
    }


def _page_of(path: str, content: str) -> str:
    """Return the page that shows what a source file says."""
    within = path.removeprefix(f"{content}/")
    if within.startswith("notices/"):
        return SAFETY
    return within if within.endswith(".md") else HOME


def _make_stub(page: str) -> str:
    name = PurePosixPath(page).stem
    return f"{write_header(name)}\n\n# {escape_markdown(name)}\n\nThis file can't be shown yet.\n"


def _write_panel(pairs: Sequence[tuple[Finding, str]], page: str) -> str:
    """Write the panel of a page, with its own findings first."""
    return render_block(
        "findings.html",
        language_of(_AUTHORS),
        count=word_count(len(pairs), "finding"),
        mine=[finding for finding, owner in pairs if owner == page],
        others=[finding for finding, owner in pairs if owner != page],
    )


def _add_panel(text: str, panel: str) -> str:
    head, end, body = text.partition(_HEADER_END)
    return f"{head}{end}\n{panel}\n\n{body.lstrip()}"
