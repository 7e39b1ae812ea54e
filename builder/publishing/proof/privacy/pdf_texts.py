"""Every text of a PDF: its pages, what stands for pictures, notes, outline, metadata."""

from collections.abc import Iterator
from contextlib import suppress
from io import BytesIO

import pikepdf
import pypdfium2  # type: ignore[import-untyped]

from builder.publishing.proof.privacy.pictures import list_picture_texts
from builder.publishing.proof.privacy.piece import Piece, UnreadableError

_END = b"%%EOF"
_EARLIER = "an earlier state of the file"
_JPEG = ("/DCTDecode", "/JPXDecode")


def list_pdf_texts(content: bytes) -> tuple[list[Piece], list[tuple[str, bytes]]]:
    """Return the texts of a PDF, and the files that are attached to it by name.

    UnreadableError for a damaged PDF and for one that asks for a password.
    """
    try:
        with pikepdf.open(BytesIO(content)) as pdf:
            pieces = [*_read_pages(content), *_read_metadata(pdf), *_read_objects(pdf)]
            return [*pieces, *_read_earlier(content)], list(_list_attached(pdf))
    except pikepdf.PasswordError as error:
        raise UnreadableError("it asks for a password") from error
    except (pikepdf.PdfError, pypdfium2.PdfiumError, ValueError) as error:
        raise UnreadableError(str(error)) from error


def _read_pages(content: bytes, spot: str = "") -> Iterator[Piece]:
    document = pypdfium2.PdfDocument(content)
    try:
        for number in range(len(document)):
            page = document[number]
            words = page.get_textpage()
            yield Piece(spot or f"page {number + 1}", words.get_text_range())
            words.close()
            page.close()
    finally:
        document.close()


def _read_earlier(content: bytes) -> Iterator[Piece]:
    """Yield the pages as they were before each change that was only added to the file's end.

    What stands behind the last end is read too. A file that is laid out for slow lines has a
    first end that closes nothing, and is passed over there.
    """
    start, end = content.find(_END), content.rfind(_END)
    while start < end:
        with suppress(pypdfium2.PdfiumError):
            yield from _read_pages(content[: start + len(_END)], _EARLIER)
        start = content.find(_END, start + 1)
    yield Piece("what follows its end", content[end + len(_END) :].decode("utf-8", "replace"))


def _read_metadata(pdf: pikepdf.Pdf) -> Iterator[Piece]:
    for value in pdf.docinfo.values():
        yield Piece("the metadata", str(value))


def _read_objects(pdf: pikepdf.Pdf) -> Iterator[Piece]:
    texts: dict[str, None] = {}
    for part in (*pdf.objects, pdf.trailer):
        texts.update(dict.fromkeys(_list_strings(part)))
        if isinstance(part, pikepdf.Stream):
            yield from _read_stream(part)
    yield Piece("what stands behind a page", "\n".join(texts))


def _read_stream(part: pikepdf.Stream) -> Iterator[Piece]:
    if part.get("/Type") == "/Metadata":
        text = part.read_bytes().decode("utf-8", "replace")
        yield Piece("the metadata", text, has_tags=True)
    elif part.get("/Subtype") == "/Image" and part.get("/Filter") in _JPEG:
        yield from list_picture_texts(part.read_raw_bytes())


def _list_strings(part: pikepdf.Object) -> Iterator[str]:
    """Yield every string in an object, but not those of objects that it points to."""
    if isinstance(part, pikepdf.String):
        yield str(part)
    elif isinstance(part, pikepdf.Dictionary | pikepdf.Stream):
        for value in part.values():
            if not getattr(value, "is_indirect", False):
                yield from _list_strings(value)
    elif isinstance(part, pikepdf.Array):
        for value in part:
            if not getattr(value, "is_indirect", False):
                yield from _list_strings(value)


def _list_attached(pdf: pikepdf.Pdf) -> Iterator[tuple[str, bytes]]:
    for name, attached in pdf.attachments.items():
        yield attached.filename or name, attached.get_file().read_bytes()
