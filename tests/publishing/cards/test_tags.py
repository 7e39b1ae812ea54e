"""What the PDF engine leaves undone in tags, done: what is repeated, and languages of parts."""

from io import BytesIO

import pikepdf

from builder.publishing.cards.pdf import open_press
from builder.publishing.proof.structure.check import Wanted, find_structure_faults
from builder.publishing.proof.structure.opened import read_opened
from builder.publishing.proof.structure.order import list_runs
from builder.publishing.proof.structure.source import Source

STYLE = """
@font-face { font-family: "Source Sans 3"; src: url(course:/fonts/SourceSans3-Regular.ttf) }
@page { size: 80mm 60mm; margin: 15mm; @bottom-center { content: element(foot) } }
.foot { position: running(foot) } .number::before { content: counter(page) }
body { font: 9pt "Source Sans 3" } h2 { break-before: page }
"""
HTML = (
    '<html lang="en-GB"><title>Try</title><body><div class="foot" data-running>'
    '<p>Small Studio</p><p>Ask first. <page-number class="number"></page-number></p></div>'
    '<h1>Try</h1><p>By Small Studio: <span lang="es">inhala</span>.</p><h2>More</h2><p>Out.</p>'
)


def read_runs(content: bytes) -> list[tuple[str, str | None]]:
    with pikepdf.open(BytesIO(content)) as pdf:
        return [(run.letters, run.language) for run in list_runs(read_opened(pdf))]


def write() -> tuple[bytes, Source]:
    layout = open_press().lay_out(HTML, STYLE)
    return layout.write(), layout.source


def test_what_is_said_only_at_the_foot_is_read_once_and_the_rest_is_no_text() -> None:
    content, source = write()
    assert find_structure_faults(content, Wanted(source)) == ()
    letters = [letters for letters, _ in read_runs(content)]
    assert letters == ["try", "bysmallstudio", "inhala", "more", "out", "askfirst"]
    with pikepdf.open(BytesIO(content)) as pdf:
        drawn = [page.Contents.read_bytes().count(b"/Pagination") for page in pdf.pages]
    assert drawn == [2, 3]  # studio and number; on the second page the caution too


def test_a_part_in_another_language_says_so() -> None:
    content, _ = write()
    assert [language for letters, language in read_runs(content) if letters == "inhala"] == ["es"]
    assert {language for letters, language in read_runs(content) if letters != "inhala"} == {None}


def test_the_same_pages_are_the_same_bytes() -> None:
    assert write()[0] == write()[0]
