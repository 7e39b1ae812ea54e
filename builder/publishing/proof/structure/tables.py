"""Whether each cell of a table names its headers (ISO 14289-1, 7.5)."""

from collections.abc import Iterator

from builder import rules
from builder.publishing.proof.structure.fault import Fault
from builder.publishing.proof.structure.opened import OpenedPdf
from builder.publishing.proof.structure.tree import Node


def find_table_faults(opened: OpenedPdf) -> Iterator[Fault]:
    """Yield tables without headers, and cells that belong to none."""
    tables = [node for node in opened.nodes if node.role == "Table"]
    # A table that runs over pages is several ones, which name each other's headers.
    known = {part.cell.id for table in tables for part in table.walk() if part.role == "TH"}
    for table in tables:
        yield from _find_in(opened, table, known - {""})


def _find_in(opened: OpenedPdf, table: Node, known: set[str]) -> Iterator[Fault]:
    headers = [part for part in table.walk() if part.role == "TH"]
    if not headers:
        yield Fault(rules.PDF_TABLE_BROKEN, "a table has no headers")
    has_scopes = bool(headers) and all(part.cell.scope for part in headers)
    for cell in (part for part in table.walk() if part.role == "TD"):
        named = cell.cell.headers
        if not all(name in known for name in named):
            fact = f'the cell "{opened.read_words(cell)}" names a header that is not there'
            yield Fault(rules.PDF_TABLE_BROKEN, fact)
        elif not named and not has_scopes:
            fact = f'the cell "{opened.read_words(cell)}" names no header'
            yield Fault(rules.PDF_TABLE_BROKEN, fact)
