"""The fonts of a finished PDF: all of them in the file, and all of our own family."""

from collections.abc import Iterator
from io import BytesIO

import pikepdf

from builder.publishing.proof.finished.pdf_reading import PdfUnsoundError
from builder.publishing.proof.safety.own_type import FAMILY

_FILES = ("/FontFile", "/FontFile2", "/FontFile3")
_UNNAMED = "a font without a name"


def find_foreign_fonts(content: bytes) -> tuple[str, ...]:
    """Name every font of a PDF's pages that isn't in the file or isn't of our family, sorted.

    A machine without our font files prints in whatever it has, and letters that aren't in a
    file look different to everybody (ISO 32000-2, 9.9). Raises PdfUnsoundError for a file that
    is no PDF or a damaged one.
    """
    try:
        with pikepdf.open(BytesIO(content)) as pdf:
            return tuple(sorted({_name(font) for font in _list_fonts(pdf) if not _is_own(font)}))
    except (pikepdf.PdfError, pikepdf.PasswordError, ValueError, TypeError) as error:
        raise PdfUnsoundError(str(error)) from error


def _list_fonts(pdf: pikepdf.Pdf) -> Iterator[pikepdf.Object]:
    """Yield the fonts of every page, and of every form and note on it, once."""
    known: set[tuple[int, int]] = set()
    waiting: list[pikepdf.Object] = [page.obj for page in pdf.pages]
    while waiting:
        holder = waiting.pop()
        if holder.is_indirect:
            if holder.objgen in known:
                continue
            known.add(holder.objgen)
        resources = _find(holder, "/Resources")
        yield from _list_values(_find(resources, "/Font"))
        for kind in ("/XObject", "/Pattern"):
            waiting += _list_values(_find(resources, kind))
        for note in _list_values(holder.get("/Annots")):
            waiting += _list_appearances(_find(note, "/AP"))


def _list_appearances(part: object) -> Iterator[pikepdf.Object]:
    for value in _list_values(part):
        yield from [value] if isinstance(value, pikepdf.Stream) else _list_values(value)


def _list_values(part: object) -> Iterator[pikepdf.Object]:
    """Yield what is itself a dictionary or a stream in one or in an array."""
    if isinstance(part, pikepdf.Dictionary):
        values = list(part.values())
    elif isinstance(part, pikepdf.Array):
        values = list(part)
    else:
        return
    for value in values:
        if isinstance(value, pikepdf.Dictionary | pikepdf.Stream):
            yield value


def _find(part: object, key: str) -> object:
    return part.get(key) if isinstance(part, pikepdf.Dictionary | pikepdf.Stream) else None


def _is_own(font: pikepdf.Object) -> bool:
    name = _name(font).rpartition("+")[2]
    if name.removesuffix(",") != FAMILY and not name.startswith(f"{FAMILY}-"):
        return False
    kept = [
        _find(part, "/FontDescriptor")
        for part in (font, *_list_values(_find(font, "/DescendantFonts")))
    ]
    return any(isinstance(_find(part, file), pikepdf.Stream) for part in kept for file in _FILES)


def _name(font: pikepdf.Object) -> str:
    return str(font.get("/BaseFont", "")).removeprefix("/") or _UNNAMED
