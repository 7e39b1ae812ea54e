"""The page of a group as one file for a browser, and as a PDF that was read back."""

import base64
import hashlib
from collections.abc import Iterator
from pathlib import Path

from markupsafe import Markup

from builder.errors import BuilderError
from builder.language import language_of
from builder.publishing.environment import open_templates
from builder.publishing.group_view.view import GroupView
from builder.publishing.proof.read_back import find_missing_texts, join_readings, read_pdf
from builder.resources import find_templates
from builder.work.whole import write_whole, write_whole_bytes

_FOLDER = "group"
_TEMPLATE = "group.html.j2"
HTML_FILE, PDF_FILE = "group.html", "group.pdf"


def write_group_files(view: GroupView, folder: Path) -> tuple[Path, Path]:
    """Write both files into a folder; BuilderError where the PDF lost a word, and then neither."""
    html, pdf = write_group_html(view), print_group(view)
    folder.mkdir(parents=True, exist_ok=True)
    write_whole(folder / HTML_FILE, html)
    write_whole_bytes(folder / PDF_FILE, pdf)
    return folder / HTML_FILE, folder / PDF_FILE


def write_group_html(view: GroupView) -> str:
    """Return the page as HTML that asks for nothing and runs nothing."""
    style = _read("group.css") + _read("screen.css")
    digest = base64.b64encode(hashlib.sha256(style.encode()).digest()).decode()
    policy = f"default-src 'none'; style-src 'sha256-{digest}'; base-uri 'none'; form-action 'none'"
    return _render(view, style, policy)


def print_group(view: GroupView) -> bytes:
    """Return the page as a PDF on A4 across; BuilderError where a word of it was lost."""
    from builder.publishing.cards.pdf import open_press  # noqa: PLC0415  # takes long to load

    style = _read("group.css") + _read("paper.css")
    pdf = open_press().lay_out(_render(view, "", ""), style).write()
    said = join_readings(read_pdf(pdf))
    lost = find_missing_texts(said, dict(_list_wanted(view)))
    if lost:
        raise BuilderError(
            f"the PDF of the group lost {lost[0]}", "report it as a fault of the tool"
        )
    return pdf


def _list_wanted(view: GroupView) -> Iterator[tuple[str, str]]:
    yield "the caution", view.caution
    if view.left_out:
        yield "who is left out", view.left_out
    for row in view.rows:
        yield f'the name of "{row.id}"', row.name
        for cell in row.cells:
            yield f'a lesson of "{row.id}"', f"{cell.way} {cell.lesson}"
        for seen in row.to_see:
            yield f'what to see to with "{row.id}"', f"{seen.kind}: {seen.what}"


def _render(view: GroupView, style: str, policy: str) -> str:
    template = open_templates(_FOLDER).get_template(_TEMPLATE)
    values = {"view": view, "style": Markup(style), "policy": policy}  # noqa: S704  # our own
    return template.render(**values, **language_of(view.language).sayings)


def _read(name: str) -> str:
    return (find_templates() / _FOLDER / name).read_text(encoding="utf-8")
