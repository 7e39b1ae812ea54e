"""What the PDF engine leaves undone in tags: what repeats on each page, and languages of parts.

The engine gives the head and foot of a page marks that lead nowhere, and it forgets in which
language a part is. Both are known from the page's HTML.
"""

import re
from collections.abc import Iterable, Iterator
from io import BytesIO
from re import Match

import pikepdf

from builder.publishing.proof.read_back import fold_text
from builder.publishing.proof.structure.objects import Key
from builder.publishing.proof.structure.opened import OpenedPdf, read_opened
from builder.publishing.proof.structure.order import align_runs, list_runs, spread_languages
from builder.publishing.proof.structure.source import Source, strip_digits
from builder.publishing.proof.structure.tree import Spot

_MARK = re.compile(rb"/\w+\s*<<\s*/MCID (\d+)\s*>>\s*BDC")
"""As the engine writes it, and no other way."""
_ARTIFACT = b"/Artifact <</Type /Pagination>> BDC"
_BLOCKS = ("/P", "/Div", "/H1", "/H2", "/H3", "/LBody")


def mend_tags(content: bytes, source: Source) -> bytes:
    """Give all that is drawn its place, and parts their language."""
    with pikepdf.open(BytesIO(content)) as pdf:
        opened = read_opened(pdf)
        if _settle_repeated(opened, source):
            opened = read_opened(pdf)
        _name_languages(opened, source)
        target = BytesIO()
        pdf.save(target, deterministic_id=True)
    return target.getvalue()


def _settle_repeated(opened: OpenedPdf, source: Source) -> bool:
    """Give what is repeated a place where it is said first, and mark it as none elsewhere.

    What stands in the text too is said there, and numbers of pages are no part of it. Tells
    whether anything was repeated.
    """
    unsaid = {strip_digits(passage.letters): passage.letters for passage in source.list_unsaid()}
    surplus: dict[Key, list[int]] = {}
    blocks = list(_list_blocks(opened))
    for block, spots in blocks:
        letters = strip_digits("".join(_read(opened, spot) for spot in spots))
        wanted = unsaid.pop(letters, "")
        if wanted:
            body = opened.pdf.Root.StructTreeRoot.K[0]
            block.P = body
            body.K.append(block)
        for stream, number in _find_surplus(opened, spots, wanted):
            surplus.setdefault(stream, []).append(number)
    for stream, numbers in surplus.items():
        _mark_as_none(opened, opened.pdf.get_object(stream), numbers)
    return bool(blocks)


def _read(opened: OpenedPdf, spot: Spot) -> str:
    return fold_text(opened.contents.words[spot])


def _find_surplus(opened: OpenedPdf, spots: Iterable[Spot], wanted: str) -> Iterator[Spot]:
    """Yield the marks of a block that aren't part of its words, as the number of a page."""
    has_words = bool(wanted)
    for spot in spots:
        letters = _read(opened, spot)
        if has_words and wanted.startswith(letters):
            wanted = wanted.removeprefix(letters)
        else:
            yield spot


def _list_blocks(opened: OpenedPdf) -> Iterator[tuple[pikepdf.Object, list[Spot]]]:
    """Yield each block whose words have no place, with its marks in the order of pages."""
    blocks: dict[Key, tuple[pikepdf.Object, list[Spot]]] = {}
    keys = {page.obj.objgen: int(page.obj.StructParents) for page in opened.pdf.pages}
    for spot in opened.contents.words:
        if spot not in opened.tree.owners:
            row = _read_row(opened, keys[spot[0]])
            block = _find_block(row[spot[1]])
            blocks.setdefault(block.objgen, (block, []))[1].append(spot)
    yield from blocks.values()


def _read_row(opened: OpenedPdf, key: int) -> pikepdf.Array:
    """Return the parts of a page's marks."""
    row = opened.parents[key]
    return row if isinstance(row, pikepdf.Array) else pikepdf.Array()


def _find_block(part: pikepdf.Object) -> pikepdf.Object:
    while part.S not in _BLOCKS and part.P.S != "/Document":
        part = part.P
    return part


def _mark_as_none(opened: OpenedPdf, page: pikepdf.Object, numbers: Iterable[int]) -> None:
    chosen = set(numbers)

    def replace(mark: Match[bytes]) -> bytes:
        return _ARTIFACT if int(mark[1]) in chosen else mark[0]

    content = page.Contents.read_bytes()
    page.Contents = opened.pdf.make_stream(_MARK.sub(replace, content))
    row = _read_row(opened, int(page.StructParents))
    for number in chosen:
        part = row[number]
        part.P.K = pikepdf.Array([kid for kid in part.P.K if kid != part])
        row[number] = None


def _name_languages(opened: OpenedPdf, source: Source) -> None:
    """Note at each part in another language which it is; the check tells what doesn't align."""
    runs = tuple(list_runs(opened))
    starts = align_runs(runs, source)
    for run, spoken in spread_languages(runs, starts, source) if starts else ():
        if spoken not in ({source.language}, {run.language}):
            opened.pdf.get_object(run.node.key).Lang = pikepdf.String(min(spoken))
