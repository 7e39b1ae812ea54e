"""Every text of a PDF: its pages, what stands for pictures, notes, outline, metadata."""

from collections.abc import Iterator
from io import BytesIO

import pikepdf
import pypdfium2  # type: ignore[import-untyped]

from builder.publishing.proof.privacy.piece import Piece, UnreadableError

_TEXT_KEYS = (
    *("/Alt", "/ActualText", "/E", "/Contents", "/RC", "/Subj", "/T", "/TU", "/V", "/DV"),
    *("/Title", "/URI", "/F", "/UF", "/Desc", "/Name", "/JS", "/P"),
)
"""Keys under which ISO 32000-2 keeps texts that people get to see or hear, or files' names."""
_INNER = ("/A", "/AA", "/F", "/MK")
"""Dictionaries that often stand inside others."""


def list_pdf_texts(content: bytes) -> tuple[list[Piece], list[tuple[str, bytes]]]:
    """Return the texts of a PDF, and the files that are attached to it by name.

    UnreadableError for a damaged PDF and for one that asks for a password.
    """
    try:
        with pikepdf.open(BytesIO(content)) as pdf:
            pieces = [*_read_pages(content), *_read_metadata(pdf), *_read_objects(pdf)]
            return pieces, list(_list_attached(pdf))
    except pikepdf.PasswordError as error:
        raise UnreadableError("it asks for a password") from error
    except (pikepdf.PdfError, pypdfium2.PdfiumError, ValueError) as error:
        raise UnreadableError(str(error)) from error


def _read_pages(content: bytes) -> Iterator[Piece]:
    document = pypdfium2.PdfDocument(content)
    try:
        for number in range(len(document)):
            page = document[number]
            words = page.get_textpage()
            yield Piece(f"page {number + 1}", words.get_text_range())
            words.close()
            page.close()
    finally:
        document.close()


def _read_metadata(pdf: pikepdf.Pdf) -> Iterator[Piece]:
    for value in pdf.docinfo.values():
        yield Piece("the metadata", str(value))
    packet = pdf.Root.get("/Metadata")
    if isinstance(packet, pikepdf.Stream):
        text = packet.read_bytes().decode("utf-8", "replace")
        yield Piece("the metadata", text, has_tags=True)


def _read_objects(pdf: pikepdf.Pdf) -> Iterator[Piece]:
    texts = [
        str(value)
        for part in pdf.objects
        if isinstance(part, pikepdf.Dictionary)
        for holder in (part, *_list_inner(part))
        for key in _TEXT_KEYS
        if key in holder and isinstance(value := holder[key], pikepdf.String)
    ]
    yield Piece("what stands behind a page", "\n".join(dict.fromkeys(texts)))


def _list_inner(part: pikepdf.Dictionary) -> Iterator[pikepdf.Dictionary]:
    for key in _INNER:
        if key in part and isinstance(inner := part[key], pikepdf.Dictionary):
            yield inner


def _list_attached(pdf: pikepdf.Pdf) -> Iterator[tuple[str, bytes]]:
    for name, attached in pdf.attachments.items():
        yield attached.filename or name, attached.get_file().read_bytes()
