"""The tags of cards on a sheet: taken over from each card, and led to where it is drawn now.

A card is drawn on its sheet as a form, so a part names the form besides the page (ISO 32000-1,
14.7.4.2, table 324).
"""

from collections.abc import Iterator
from dataclasses import dataclass

import pikepdf
from pikepdf import Array, Dictionary, Name, Object, Pdf, String

from builder.publishing.proof.structure.objects import list_items, read_number_tree

_UA_PART = "1"
_KEPT = ("/Alt", "/ActualText", "/Lang", "/A")
"""What a part says of itself; cards have no tables, whose parts name each other."""


class SheetTags:
    """The tree of a file of sheets, to which cards are added as they are drawn."""

    def __init__(self, pdf: Pdf, title: str, language: str) -> None:
        self._pdf = pdf
        self._rows = Array([])
        root = pdf.Root
        root.Lang = String(language)
        root.MarkInfo = Dictionary(Marked=True)
        root.ViewerPreferences = Dictionary(DisplayDocTitle=True)
        with pdf.open_metadata(set_pikepdf_as_editor=False) as metadata:
            metadata["dc:title"] = title
            metadata["pdfuaid:part"] = _UA_PART
        table = Dictionary(Nums=self._rows)
        tree = pdf.make_indirect(Dictionary(Type=Name.StructTreeRoot, ParentTree=table))
        self._body = pdf.make_indirect(
            Dictionary(Type=Name.StructElem, S=Name.Document, P=tree, K=Array([]))
        )
        tree.K = Array([self._body])
        root.StructTreeRoot = tree

    def take(self, card: pikepdf.Page, source: Pdf, form: Object, sheet: pikepdf.Page) -> None:
        """Add the parts of a card's page, which a form now draws on a sheet."""
        tree = source.Root.StructTreeRoot
        copier = _Copier(self._pdf, form, sheet.obj, {})
        for part in tree.K[0].K:
            if part.Pg.objgen == card.obj.objgen:
                self._body.K.append(copier.copy(part, self._body))
        row = list_items(read_number_tree(tree.ParentTree)[int(card.obj.StructParents)])
        form.StructParents = len(self._rows) // 2
        owners = [copier.copies[part.objgen] for part in row if isinstance(part, Object)]
        self._rows.extend([Object.parse(b"%d" % (len(self._rows) // 2)), Array(owners)])


@dataclass(frozen=True, slots=True)
class _Copier:
    """Copies parts of a card for the form that draws it on a sheet."""

    pdf: Pdf
    form: Object
    sheet: Object
    copies: dict[tuple[int, int], Object]
    """By the key of what was copied."""

    def copy(self, part: Object, parent: Object) -> Object:
        """Copy a part with all below it."""
        copy = self.pdf.make_indirect(
            Dictionary(Type=Name.StructElem, S=part.S, P=parent, Pg=self.sheet)
        )
        self.copies[part.objgen] = copy
        for name in _KEPT:
            if name in part:
                copy[name] = Object.parse(part[name].unparse(resolved=True))
        copy.K = Array(list(self._copy_kids(part, copy)))
        return copy

    def _copy_kids(self, part: Object, copy: Object) -> Iterator[Object]:
        for kid in list_items(part.get("/K")):
            if isinstance(kid, int):
                yield Dictionary(Type=Name.MCR, Pg=self.sheet, Stm=self.form, MCID=kid)
            elif isinstance(kid, Dictionary):
                yield self.copy(kid, copy)
