"""A finished PDF, opened and read once for all that looks into it."""

from collections.abc import Mapping
from dataclasses import dataclass

import pikepdf

from builder.publishing.proof.read_back import fold_text
from builder.publishing.proof.structure.contents import ContentReader, ContentReading
from builder.publishing.proof.structure.objects import Key, read_dictionary, read_number_tree
from builder.publishing.proof.structure.tree import Node, TreeReading, read_tree


@dataclass(frozen=True, slots=True)
class OpenedPdf:
    """A PDF with its tree and the words of its contents."""

    pdf: pikepdf.Pdf
    tree: TreeReading
    nodes: tuple[Node, ...]
    """Every part of the tree in reading order."""
    contents: ContentReading
    is_whole: bool
    streams: frozenset[Key]
    """The pages of which the contents were read."""
    parents: Mapping[int, object]
    """Which part each mark and each annotation belongs to, by the keys of pages and annotations."""

    def read_words(self, node: Node) -> str:
        """Return the letters of a part and all below it, in reading order."""
        words = self.contents.words
        return fold_text("".join(words.get(spot, "") for spot in node.list_spots()))


def read_opened(pdf: pikepdf.Pdf, front: int | None = None) -> OpenedPdf:
    """Read the tree and the contents of an opened PDF, or of its first pages alone."""
    reader = ContentReader()
    pages = list(pdf.pages)[:front]
    for number, page in enumerate(pages, 1):
        reader.read_page(page, number)
    tree = read_tree(pdf.Root)
    parents = read_dictionary(read_dictionary(pdf.Root, "/StructTreeRoot"), "/ParentTree")
    return OpenedPdf(
        pdf=pdf,
        tree=tree,
        nodes=tree.list_nodes(),
        contents=reader.reading,
        is_whole=len(pages) == len(pdf.pages),
        streams=frozenset(page.obj.objgen for page in pages),
        parents=read_number_tree(parents),
    )
