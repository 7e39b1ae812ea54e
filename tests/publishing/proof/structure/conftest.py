"""Finished PDFs to take apart, and what was asked of each."""

from collections.abc import Callable
from io import BytesIO

import pikepdf
import pytest

from builder.publishing.cards.pdf import open_press
from builder.publishing.proof.structure.check import Wanted, find_structure_faults

Edit = Callable[[pikepdf.Pdf], None]

_HEAD = '<html lang="en-GB"><title>Try</title><body>'
_STYLE = """
@font-face { font-family: "Source Sans 3"; src: url(course:/fonts/SourceSans3-Regular.ttf) }
@page { size: 100mm 100mm; margin: 5mm } body { font: 9pt "Source Sans 3" } img { width: 5mm }
"""
TRY = (
    f"{_HEAD}<h1>Try</h1><p>Breathe in.</p><h2>Steps</h2><ol><li>One</li><li>Two</li></ol>"
    '<svg xmlns="http://www.w3.org/2000/svg" role="img" viewBox="0 0 9 9"><title>A leaf</title>'
    '<path d="M0 0h9v9z"/></svg><p><a href="https://small.example/">More</a></p>'
    '<table><tr><th scope="col">Day</th><th scope="col">Sets</th></tr>'
    "<tr><td>Monday</td><td>Two</td></tr></table>"
)


class Taken:
    """A finished PDF, and what is found in it after an edit."""

    def __init__(self, html: str, style: str = _STYLE) -> None:
        layout = open_press().lay_out_apart(html, style)
        self.content, self.source = layout.write(), layout.source

    def find(self, edit: Edit | None = None, cards: int = 1) -> list[str]:
        """Return what is found, as the rule's id and the fact."""
        target = BytesIO()
        with pikepdf.open(BytesIO(self.content)) as pdf:
            if edit:
                edit(pdf)
            pdf.save(target)
        faults = find_structure_faults(target.getvalue(), Wanted(self.source, cards))
        return [f"{fault.rule.id} {fault.fact}" for fault in faults]


@pytest.fixture(scope="session")
def taken() -> Taken:
    return Taken(TRY)


def find_parts(pdf: pikepdf.Pdf, role: str) -> list[pikepdf.Object]:
    """Return the parts of a role in the order of the file's objects."""
    return [
        each
        for each in pdf.objects
        if isinstance(each, pikepdf.Dictionary) and each.get("/S") == f"/{role}"
    ]


def rewrite(pdf: pikepdf.Pdf, old: bytes, new: bytes) -> None:
    """Change what is drawn on the first page; what is to change must be there."""
    content = pdf.pages[0].Contents.read_bytes()
    assert old in content
    pdf.pages[0].Contents = pdf.make_stream(content.replace(old, new, 1))
