"""A laid-out document as a PDF that can be read without seeing it. Loads the PDF engine."""

from builder.publishing.cards.pdf import Layout
from builder.publishing.proof.structure.check import Wanted, find_structure_faults
from builder.publishing.proof.structure.fault import stop_on_faults


def write_proved(layout: Layout, name: str, *, is_archival: bool = False) -> bytes:
    """Write a document that is called so; BuilderError where its tags have a fault."""
    content = layout.write(is_archival=is_archival)
    wanted = Wanted(layout.source, is_archival=is_archival)
    stop_on_faults(find_structure_faults(content, wanted), name)
    return content
