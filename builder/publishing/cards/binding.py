"""Binding: finished PDFs put behind each other with their tags, numbered and linked."""

from collections.abc import Mapping
from io import BytesIO

import pikepdf
from pikepdf import Array, Dictionary, Name, Object, Pdf

LINK_SCHEME = "card:"
"""An address of this kind leads to a card of the same pack."""


class Binder:
    """Adds finished PDFs to one that comes first and keeps its title, language and metadata."""

    def __init__(self, first: Pdf) -> None:
        self._pdf = first
        self._tags = first.Root.StructTreeRoot
        self._body = self._tags.K[0]
        self._parents = self._tags.ParentTree.Nums
        self._next_key = 1 + max(_list_keys(self._parents), default=-1)

    def add(self, content: bytes) -> None:
        """Add the pages of a PDF, and its tags behind those that are there."""
        with pikepdf.open(BytesIO(content)) as card:
            count = len(self._pdf.pages)
            self._pdf.pages.extend(card.pages)
            # Pages must be there first: what points to them then points to their copies.
            tags = self._pdf.copy_foreign(card.Root.StructTreeRoot)
        for part in tags.K[0].K:
            part.P = self._body
            self._body.K.append(part)
        self._take_keys(self._pdf.pages[count:], tags.ParentTree.Nums)

    def stamp(self, first: int, content: bytes) -> None:
        """Lay the pages of a PDF over those from a number on, as far as there are any.

        They are marked as no part of the text (ISO 32000-1, 14.8.2.2).
        """
        with pikepdf.open(BytesIO(content)) as folios:
            pairs = zip(self._pdf.pages[first - 1 :], folios.pages, strict=False)
            for number, (page, stamp) in enumerate(pairs, first):
                # The pages of one source share a table of names.
                name = Name(f"/Folio{number}")
                form = self._pdf.copy_foreign(stamp.as_form_xobject())
                page.add_resource(form, Name.XObject, name)
                page.contents_add(b"q", prepend=True)
                mark = f"Q /Artifact <</Type /Pagination>> BDC q {name} Do Q EMC"
                page.contents_add(mark.encode())

    def link(self, starts: Mapping[str, int]) -> None:
        """Let links to cards lead to their pages, whose numbers count from 1."""
        for page in self._pdf.pages[: min(starts.values()) - 1]:
            for note in page.get("/Annots", []):
                address = str(note.get("/A", Dictionary()).get("/URI", ""))
                if address.startswith(LINK_SCHEME):
                    target = self._pdf.pages[starts[address.removeprefix(LINK_SCHEME)] - 1]
                    del note["/A"]
                    note.Dest = Array([target.obj, Name.XYZ, 0, target.mediabox[3], 0])

    def write(self) -> bytes:
        """Return the whole, the same bytes for the same parts."""
        target = BytesIO()
        mode = pikepdf.ObjectStreamMode.generate
        self._pdf.save(target, deterministic_id=True, object_stream_mode=mode)
        return target.getvalue()

    def _take_keys(self, pages: list[pikepdf.Page], numbers: Object) -> None:
        """Give pages and their notes keys of their own in the table of what is tagged how."""
        first = self._next_key
        for index, key in enumerate(_list_keys(numbers)):
            self._parents.extend([Object.parse(str(first + key).encode()), numbers[2 * index + 1]])
            self._next_key = max(self._next_key, first + key + 1)
        for page in pages:
            page.obj.StructParents = first + int(page.obj.StructParents)
            for note in page.get("/Annots", []):
                note.StructParent = first + int(note.StructParent)


def _list_keys(numbers: Object) -> list[int]:
    """Return the keys of a number tree's leaf: every second part (ISO 32000-1, 7.9.7)."""
    return [int(numbers[index]) for index in range(0, len(numbers), 2)]
