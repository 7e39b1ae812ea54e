"""Whether a PDF reads as its source does: the same letters, in the same order and languages."""

from bisect import bisect_left
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import accumulate, groupby, pairwise, takewhile

from builder import rules
from builder.publishing.proof.read_back import fold_text
from builder.publishing.proof.structure.fault import Fault
from builder.publishing.proof.structure.interleaving import interleave
from builder.publishing.proof.structure.objects import Key
from builder.publishing.proof.structure.opened import OpenedPdf
from builder.publishing.proof.structure.source import Source
from builder.publishing.proof.structure.tree import Node

_NOT_SOURCE = ("Figure", "Formula", "Lbl")
_HEAD = "THead"
_TOLD = 40
"""So many letters are told from where two texts part."""


@dataclass(frozen=True, slots=True)
class Run:
    """Letters that are read in one go."""

    node: Node
    letters: str
    stream: Key
    """That of its page."""
    language: str | None
    """That of the part or of one that it is in; None where none of them names one."""
    head: Key | None = None
    """The head of the table that it is in; None elsewhere."""


def find_order_faults(opened: OpenedPdf, source: Source) -> Iterator[Fault]:
    """Yield where what is read aloud is not what was written, or in another language."""
    runs = tuple(list_runs(opened))
    starts = align_runs(runs, source)
    if starts is None:
        runs = drop_repeated_heads(runs)
        starts = align_runs(runs, source)
    if starts is None:
        yield Fault(rules.PDF_OUT_OF_ORDER, _tell_difference(runs, source))
        return
    for run, spoken in spread_languages(runs, starts, source):
        read_as = run.language or source.language
        if spoken != {read_as}:
            fact = f'"{run.letters[:_TOLD]}" would be read as {read_as}'
            yield Fault(rules.PDF_LANGUAGE_UNSAID, fact)


def drop_repeated_heads(runs: Sequence[Run]) -> tuple[Run, ...]:
    """Leave out the heads that the press repeats where a table runs on to another page."""
    letters: dict[Key, str] = {}
    for run in runs:
        if run.head:
            letters[run.head] = letters.get(run.head, "") + run.letters
    firsts = {words: key for key, words in reversed(letters.items())}
    return tuple(run for run in runs if not run.head or firsts[letters[run.head]] == run.head)


def find_page_order_faults(opened: OpenedPdf) -> Iterator[Fault]:
    """Yield where the tree goes back to a page that it has left."""
    # Forms that pages draw come in the order in which they are drawn.
    drawn = dict.fromkeys(stream for stream, _ in opened.contents.words)
    numbers = {stream: number for number, stream in enumerate(drawn, 1)}
    numbers |= {page.obj.objgen: number for number, page in enumerate(opened.pdf.pages, 1)}
    spots = (spot for root in opened.tree.roots for spot in root.list_spots())
    pages = [numbers.get(stream, 0) for stream, _ in groupby(spots, key=lambda spot: spot[0])]
    for before, after in pairwise(pages):
        if after <= before:
            fact = f"page {after} is read after page {before}"
            yield Fault(rules.PDF_OUT_OF_ORDER, fact)


def list_runs(opened: OpenedPdf) -> Iterator[Run]:
    """Yield the letters of a PDF as they are read.

    Pictures have words that stand for them; numbers and dots of lists are the press's own.
    """
    for root in opened.tree.roots:
        yield from _list_runs(opened, root, None, None)


def _list_runs(
    opened: OpenedPdf, node: Node, language: str | None, head: Key | None
) -> Iterator[Run]:
    if node.role in _NOT_SOURCE:
        return
    own = node.language or language
    head = node.key if node.role == _HEAD else head
    for kid in node.kids:
        if isinstance(kid, Node):
            yield from _list_runs(opened, kid, own, head)
        elif isinstance(kid, tuple):
            letters = fold_text(opened.contents.words.get(kid, ""))
            if letters:
                yield Run(node, letters, kid[0], own, head)


def align_runs(runs: Sequence[Run], source: Source) -> tuple[int, ...] | None:
    """Return where in the source each run begins; None where they don't say the same.

    They must stand in the source's order. Where columns beside each other run on to another page,
    each page's part of them is read in its own order, page by page.
    """
    wanted, unsaid = source.letters, "".join(each.letters for each in source.list_unsaid())
    lengths = list(accumulate((len(run.letters) for run in runs), initial=0))
    if "".join(run.letters for run in runs) == wanted + unsaid:
        return tuple(lengths[:-1])
    ends = bisect_left(lengths, lengths[-1] - len(unsaid))
    body, tail = runs[:ends], runs[ends:]
    pages = [tuple(own) for _, own in groupby(body, key=lambda run: run.stream)]
    is_by_page = len({own[0].stream for own in pages}) == len(pages) > 1
    if not is_by_page or "".join(run.letters for run in tail) != unsaid:
        return None
    found = interleave([[run.letters for run in own] for own in pages], wanted)
    if found is None:
        return None
    after = accumulate((len(run.letters) for run in tail), initial=len(wanted))
    return (*found, *(start for start, _ in zip(after, tail, strict=False)))


def spread_languages(
    runs: Sequence[Run], starts: Sequence[int], source: Source
) -> Iterator[tuple[Run, set[str]]]:
    """Yield in which languages each run is, if any is in another than the file."""
    passages = (*source.passages, *source.list_unsaid())
    if not source.languages and not any(run.language for run in runs):
        return
    languages = [passage.language for passage in passages for _ in passage.letters]
    for run, start in zip(runs, starts, strict=True):
        yield run, set(languages[start : start + len(run.letters)])


def _tell_difference(runs: Sequence[Run], source: Source) -> str:
    read = "".join(run.letters for run in runs)
    wanted = source.letters + "".join(each.letters for each in source.list_unsaid())
    pairs = zip(read, wanted, strict=False)
    same = sum(1 for _ in takewhile(lambda pair: pair[0] == pair[1], pairs))
    found, asked = (text[same : same + _TOLD] for text in (read, wanted))
    return f'it reads "{found}" where "{asked}" was written'
