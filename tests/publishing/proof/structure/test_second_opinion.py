"""A checker of others, over one PDF of each kind.

pdfua 0.1.3 (PyPI, MIT) decides 16 of the 106 rules of the veraPDF profile for ISO 14289-1, by its
own count. Where it disagrees with us the reason stands here.
"""

from io import BytesIO
from pathlib import Path

import pdfua
import pikepdf
import pytest

from builder.course.course import Course
from tests.publishing.proof.structure.conftest import TRY, Taken, find_parts
from tests.publishing.proof.structure.kinds import KINDS

CRASHES = {"UA-14-001"}
"""It asks each mark of an array of boxes for a heading's text as if it were a number, and gives up:
a fault of this checker. Empty headings are ours to find (A113)."""
DISAGREES = {"group": {"UA-15-003"}, "sheets to cut": {"UA-01-003"}}
"""It looks for marks around a form that a page draws. On sheets to cut the marks stand within the
forms, and parts name the form with /Stm, as ISO 32000-1, 14.7.4.2, has it.

It looks for /Scope, or for /Headers at the header cells. The group's table has /ID at header
cells and /Headers at the others, which ISO 14289-1, 7.5, and ISO 32000-1, table 349, take too."""


@pytest.mark.parametrize("kind", KINDS)
def test_another_checker_finds_nothing_either(
    kind: str, small_course: Course, tmp_path: Path
) -> None:
    path = tmp_path / "made.pdf"
    path.write_bytes(KINDS[kind](small_course))
    report = pdfua.validate(str(path))
    assert {finding.rule_id for finding in report.findings} == DISAGREES.get(kind, set())
    assert {skipped.rule_id for skipped in report.skipped} <= CRASHES


def test_it_finds_what_we_find_where_it_looks(tmp_path: Path) -> None:
    taken, path = Taken(TRY), tmp_path / "made.pdf"
    with pikepdf.open(BytesIO(taken.content)) as pdf:
        del find_parts(pdf, "Figure")[0]["/Alt"], pdf.Root["/Lang"], pdf.pages[0].Annots[0].Contents
        pdf.save(path)
    found = {finding.rule_id for finding in pdfua.validate(str(path)).findings}
    assert {"UA-06-001", "UA-13-004", "UA-18-005"} <= found
