"""The page of a group as one file for a browser, and as a PDF that was read back."""

import base64
import hashlib
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path
from typing import TypeVar

from markupsafe import Markup

from builder.errors import BuilderError
from builder.language import language_of
from builder.publishing.environment import open_templates
from builder.publishing.group_view.view import GroupView, MemberRow, ToSee
from builder.publishing.proof.read_back import find_missing_texts, join_readings, read_pdf
from builder.resources import find_templates
from builder.work.whole import write_whole, write_whole_bytes

_FOLDER = "group"
_TEMPLATE = "group.html.j2"
Named = TypeVar("Named", MemberRow, ToSee)
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
    """Return the page as a PDF on paper across; BuilderError where a word of it was lost.

    A name that the typeface can't print leaves the person's id to stand alone.
    """
    from builder.publishing.cards.pdf import open_press  # noqa: PLC0415  # takes long to load
    from builder.publishing.cards.proved import write_proved  # noqa: PLC0415  # as above
    from builder.publishing.proof.safety.printed import (  # noqa: PLC0415  # as above
        find_unseen_words,
    )

    printed = _leave_out_lacking_names(view)
    size = f"@page {{ size: {view.paper.height_mm}mm {view.paper.width_mm}mm }}"
    style = _read("group.css") + _read("paper.css") + size
    pdf = write_proved(open_press().lay_out(_render(printed, "", ""), style), "the group's PDF")
    said = join_readings(read_pdf(pdf))
    lost = find_missing_texts(said, dict(_list_wanted(printed)))
    if lost:
        raise BuilderError(
            f"the PDF of the group lost {lost[0]}", "report it as a fault of the tool"
        )
    hidden = find_unseen_words(pdf, {"caution": view.caution})
    if hidden:
        raise BuilderError(
            f"the caution on the PDF of the group can't be read: {hidden['caution']}",
            "report it as a fault of the tool",
        )
    return pdf


def _leave_out_lacking_names(view: GroupView) -> GroupView:
    from builder.publishing.cards.typeface import (  # noqa: PLC0415  # takes long to load
        find_lacking_signs,
    )

    def name(person: Named) -> Named:
        return replace(person, name="") if find_lacking_signs([person.name]) else person

    groups = (replace(each, people=tuple(map(name, each.people))) for each in view.to_see)
    return replace(view, rows=tuple(map(name, view.rows)), to_see=tuple(groups))


def _list_wanted(view: GroupView) -> Iterator[tuple[str, str]]:
    yield "the caution", view.caution
    if view.left_out:
        yield "who is left out", view.left_out
    for group in view.to_see:
        yield "a heading", group.kind
        for seen in group.people:
            words = f": {seen.what}" if seen.what else ""
            yield f'what to see to with "{seen.id}"', f"{seen.name} {seen.id}{words}".strip()
    for row in view.rows:
        yield f'the name of "{row.id}"', f"{row.name} {row.id}".strip()
        for cell in row.cells:
            yield f'a lesson of "{row.id}"', f"{cell.way} {cell.lesson}"


def _render(view: GroupView, style: str, policy: str) -> str:
    template = open_templates(_FOLDER).get_template(_TEMPLATE)
    values = {"view": view, "style": Markup(style), "policy": policy}  # noqa: S704  # our own
    return template.render(**values, **language_of(view.language).sayings)


def _read(name: str) -> str:
    return (find_templates() / _FOLDER / name).read_text(encoding="utf-8")
