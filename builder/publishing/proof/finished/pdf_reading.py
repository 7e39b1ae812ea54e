"""The links of a PDF as it holds them (ISO 32000-2, 12.3 and 12.6), read without judging."""

import re
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

import pikepdf

_WEB_ADDRESS = re.compile(r"https?://\S+")
_DEEPEST = 5000
"""Entries of an outline, so that one that runs in a circle comes to an end."""


@dataclass(frozen=True, slots=True)
class PdfLink:
    """One link, by where it stands: a page's number from 1, or 0 for the outline."""

    page: int
    target: str


@dataclass(frozen=True, slots=True)
class PdfReading:
    """What a PDF points to."""

    web: tuple[PdfLink, ...]
    """Addresses that a reader would open in a browser."""
    files: tuple[PdfLink, ...]
    """Other files or programs that a reader would open."""
    lost: tuple[PdfLink, ...]
    """Links to a spot in the PDF itself that it doesn't have."""
    pictured: tuple[str, ...]
    """Web addresses in the words that stand for pictures, as those for a QR code do."""


class PdfUnsoundError(ValueError):
    """A file is no PDF, or a damaged one."""


def read_pdf_links(path: Path) -> PdfReading:
    """Read every link of a PDF; raises PdfUnsoundError where that can't be done."""
    try:
        with pikepdf.open(path) as pdf:
            return _Reader(pdf).read()
    except (
        pikepdf.PdfError,
        pikepdf.PasswordError,
        ValueError,
    ) as error:  # a name that is no text is a ValueError
        raise PdfUnsoundError(str(error)) from error


class _Reader:
    def __init__(self, pdf: pikepdf.Pdf) -> None:
        self._pdf = pdf
        self._pages = _list_pages(pdf)
        self._names = _list_names(pdf)
        self._web: list[PdfLink] = []
        self._files: list[PdfLink] = []
        self._lost: list[PdfLink] = []

    def read(self) -> PdfReading:
        for number, page in enumerate(self._pdf.pages, 1):
            notes = page.obj.get("/Annots")
            for note in notes if isinstance(notes, pikepdf.Array) else ():
                self._take(number, note)
        for entry in _list_outline(self._pdf):
            self._take(0, entry)
        web, files, lost = map(_once, (self._web, self._files, self._lost))
        return PdfReading(web, files, lost, tuple(dict.fromkeys(_list_pictured(self._pdf))))

    def _take(self, number: int, holder: object) -> None:
        """Take the target of an annotation or an entry of the outline."""
        if not isinstance(holder, pikepdf.Dictionary):
            return
        if "/Dest" in holder:
            self._take_spot(number, holder["/Dest"])
        action = holder.get("/A")
        if not isinstance(action, pikepdf.Dictionary):
            return
        kind = str(action.get("/S", ""))
        if kind == "/URI":
            self._web.append(PdfLink(number, str(action.get("/URI", ""))))
        elif kind == "/GoTo":
            self._take_spot(number, action.get("/D"))
        elif kind in ("/GoToR", "/GoToE", "/Launch"):
            self._files.append(PdfLink(number, _name_file(action)))

    def _take_spot(self, number: int, spot: object) -> None:
        if isinstance(spot, pikepdf.Array):
            if not _leads_to(spot, self._pages):
                self._lost.append(PdfLink(number, "a page that was taken out"))
        elif not self._names.get(str(spot), False):
            self._lost.append(PdfLink(number, str(spot)))


def _once(links: list[PdfLink]) -> tuple[PdfLink, ...]:
    return tuple(dict.fromkeys(links))


def _list_pages(pdf: pikepdf.Pdf) -> set[tuple[int, int]]:
    return {page.obj.objgen for page in pdf.pages}


def _leads_to(spot: object, pages: set[tuple[int, int]]) -> bool:
    """Tell whether a spot, as an array or in a dictionary, is on a page that is there."""
    if isinstance(spot, pikepdf.Dictionary):
        spot = spot.get("/D")
    if not isinstance(spot, pikepdf.Array) or len(spot) == 0:
        return False
    page = spot[0]
    return isinstance(page, pikepdf.Object) and page.objgen in pages


def _list_names(pdf: pikepdf.Pdf) -> dict[str, bool]:
    """Return each named spot, with whether its page is there."""
    pages = _list_pages(pdf)
    names = pdf.Root.get("/Names")
    tree = names.get("/Dests") if isinstance(names, pikepdf.Dictionary) else None
    known = dict(pikepdf.NameTree(tree).items()) if isinstance(tree, pikepdf.Dictionary) else {}
    old = pdf.Root.get("/Dests")
    listed = {str(name): spot for name, spot in known.items()}
    listed |= dict(old.items()) if isinstance(old, pikepdf.Dictionary) else {}
    return {name: _leads_to(spot, pages) for name, spot in listed.items()}


def _list_outline(pdf: pikepdf.Pdf) -> Iterator[pikepdf.Object]:
    root = pdf.Root.get("/Outlines")
    waiting = [root.get("/First")] if isinstance(root, pikepdf.Dictionary) else []
    for _ in range(_DEEPEST):
        entry = waiting.pop() if waiting else None
        if not isinstance(entry, pikepdf.Dictionary):
            if not waiting:
                return
            continue
        yield entry
        waiting += [entry.get("/Next"), entry.get("/First")]


def _list_pictured(pdf: pikepdf.Pdf) -> Iterator[str]:
    for part in pdf.objects:
        if isinstance(part, pikepdf.Dictionary) and "/Alt" in part:
            yield from _WEB_ADDRESS.findall(str(part["/Alt"]))


def _name_file(action: pikepdf.Dictionary) -> str:
    file = action.get("/F", "")
    return (
        str(file.get("/UF", file.get("/F", "")))
        if isinstance(file, pikepdf.Dictionary)
        else str(file)
    )
