"""A finished PDF, opened and read once for all that looks into it."""

from collections.abc import Mapping
from dataclasses import dataclass

import pikepdf

from builder.publishing.proof.read_back import fold_text
from builder.publishing.proof.structure.contents import ContentReader, ContentReading
from builder.publishing.proof.structure.objects import read_dictionary, read_number_tree
from builder.publishing.proof.structure.tree import Node, TreeReading, read_tree


@dataclass(frozen=True, slots=True)
class OpenedPdf:
    """A PDF with its tree and the words of its contents."""

    pdf: pikepdf.Pdf
    tree: TreeReading
    nodes: tuple[Node, ...]
    """Every part of the tree in reading order."""
    contents: ContentReading
    parents: Mapping[int, object]
    """Which part each mark and each annotation belongs to, by the keys of pages and annotations."""

    def read_words(self, node: Node) -> str:
        """Return the letters of a part and all below it, in reading order."""
        words = self.contents.words
        return fold_text("".join(words.get(spot, "") for spot in node.list_spots()))


def read_opened(pdf: pikepdf.Pdf) -> OpenedPdf:
    """Read the tree and the contents of an opened PDF."""
    reader = ContentReader()
    for number, page in enumerate(pdf.pages, 1):
        reader.read_page(page, number)
    tree = read_tree(pdf.Root)
    parents = read_dictionary(read_dictionary(pdf.Root, "/StructTreeRoot"), "/ParentTree")
    return OpenedPdf(pdf, tree, tree.list_nodes(), reader.reading, read_number_tree(parents))
