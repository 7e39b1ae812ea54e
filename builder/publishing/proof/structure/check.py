"""The whole check of a finished PDF."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from io import BytesIO

import pikepdf

from builder import rules
from builder.publishing.proof.structure.archive import find_archive_faults
from builder.publishing.proof.structure.fault import Fault
from builder.publishing.proof.structure.letters import find_letter_faults
from builder.publishing.proof.structure.links import find_link_faults
from builder.publishing.proof.structure.marks import (
    find_active_faults,
    find_language_faults,
    find_mark_faults,
)
from builder.publishing.proof.structure.opened import OpenedPdf, read_opened
from builder.publishing.proof.structure.order import find_order_faults, find_page_order_faults
from builder.publishing.proof.structure.outline import Bookmark, find_outline_faults
from builder.publishing.proof.structure.roles import (
    find_empty_faults,
    find_heading_faults,
    find_list_faults,
    find_picture_faults,
    find_role_faults,
)
from builder.publishing.proof.structure.source import Source
from builder.publishing.proof.structure.tables import find_table_faults
from builder.publishing.proof.structure.tagging import find_tagging_faults


@dataclass(frozen=True, slots=True)
class Wanted:
    """What a PDF must be."""

    source: Source
    cards: int = 1
    """So many headings of the first level it has."""
    bookmarks: tuple[Bookmark, ...] = ()
    is_archival: bool = False
    pictures: int | None = None
    """So many pictures are on it; None where nobody counts them."""


def find_structure_faults(content: bytes, wanted: Wanted) -> tuple[Fault, ...]:
    """Return all that keeps a PDF from being read without seeing it."""
    return _open(content, lambda pdf: _find_all(read_opened(pdf), content, wanted))


def find_bound_faults(content: bytes, wanted: Wanted, front: int | None) -> tuple[Fault, ...]:
    """Return all that binding may have done to finished PDFs.

    The contents of ``front`` first pages are looked into, or of all where it is None, and the tags
    of all; what is drawn on the others was looked into before they were bound.
    """
    return _open(content, lambda pdf: _find_bound(read_opened(pdf, front), content, wanted))


def _open(content: bytes, find: Callable[[pikepdf.Pdf], Iterator[Fault]]) -> tuple[Fault, ...]:
    try:
        with pikepdf.open(BytesIO(content)) as pdf:
            return tuple(dict.fromkeys(find(pdf)))
    except (
        pikepdf.PdfError,
        pikepdf.PasswordError,
        ValueError,  # a name that is no text
    ) as error:
        return (Fault(rules.PDF_ACTIVE, f"it can't be read ({error})"),)


def _find_all(opened: OpenedPdf, content: bytes, wanted: Wanted) -> Iterator[Fault]:
    yield from _find_common(opened, content, wanted)
    yield from find_order_faults(opened, wanted.source)


def _find_bound(opened: OpenedPdf, content: bytes, wanted: Wanted) -> Iterator[Fault]:
    yield from _find_common(opened, content, wanted)
    yield from find_page_order_faults(opened)


def _find_common(opened: OpenedPdf, content: bytes, wanted: Wanted) -> Iterator[Fault]:
    yield from find_mark_faults(opened, wanted.source)
    yield from find_language_faults(opened, wanted.source)
    yield from find_active_faults(opened)
    yield from find_tagging_faults(opened)
    yield from find_role_faults(opened)
    yield from find_picture_faults(opened, wanted.pictures)
    yield from find_heading_faults(opened, wanted.cards)
    yield from find_list_faults(opened)
    yield from find_table_faults(opened)
    yield from find_link_faults(opened)
    yield from find_letter_faults(opened)
    yield from find_empty_faults(opened)
    yield from find_outline_faults(opened.pdf, wanted.bookmarks)
    if wanted.is_archival:
        yield from find_archive_faults(opened, content)
