"""All packs of a course: bound by workers where the cache lacks them, from parts that are kept.

A changed card changes its packs. Their contents and page numbers mostly stay as they were, and to
print these takes longer than to bind.
"""

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from concurrent.futures import Executor
from contextlib import contextmanager
from dataclasses import dataclass
from functools import partial
from typing import Any

from builder.publishing.cards.keys import key_contents, key_folios
from builder.publishing.cards.pack_parts import FOLIOS_AT_ONCE, Contents, PackParts
from builder.publishing.cards.pack_plan import Pack
from builder.publishing.cards.run import PaperRun, Shelf
from builder.publishing.cards.window import Job, Loss, run_in_turn, run_one_by_one
from builder.publishing.cards.worker import run_contents, run_folios, run_packs
from builder.sums.paper import Paper

_CARDS_PER_JOB = 256
"""A worker takes so long to begin as to bind a hundred cards, and each job holds all of its cards:
so a job has packs of about so many (ours)."""
_MOST_JOBS_AHEAD = 4
"""Jobs in work at once (ours)."""


@dataclass(frozen=True, slots=True)
class _Lacking:
    """A pack that the cache lacks."""

    run: PaperRun
    pack: Pack
    key: str
    leaves: tuple[int, ...]
    """How many pages each of its cards has."""

    def count_pages(self, contents: Contents) -> int:
        """Return how many pages it has."""
        return contents.page_count + sum(self.leaves)

    def list_folios(self, contents: Contents) -> list[tuple[Paper, str, int]]:
        """Return which sheets of page numbers it needs."""
        firsts = range(1, self.count_pages(contents) + 1, FOLIOS_AT_ONCE)
        return [(self.pack.paper, self.pack.language, first) for first in firsts]

    def gather(self, contents: Contents, folios: Iterable[bytes]) -> PackParts:
        """Return all that it is bound from, its cards read from the folder."""
        pack = self.pack.number_pages(self.leaves, contents.page_count)
        cards = map(self.run.read_card, pack.list_lessons())
        return PackParts(pack, contents.pdf, tuple(folios), tuple(cards))


@dataclass(frozen=True, slots=True)
class LostPack:
    """A pack that took more time or memory than a print may, and why."""

    pack: Pack
    reason: str


_Batch = Sequence[tuple[_Lacking, PackParts]]
"""Packs of one job, with what they are bound from."""


@contextmanager
def bind_packs(
    runs: Sequence[PaperRun], pool: Executor, shelf: Shelf
) -> Iterator[Sequence[LostPack]]:
    """Write every pack of runs that have all of their cards, the longest first.

    Workers bind them while the caller does something else. At the end those are in the list that
    is given which were lost.
    """
    lost: list[LostPack] = []
    lacking = [each for run in runs for each in _write_known(run, shelf)]
    lacking.sort(key=lambda each: -len(each.leaves))
    jobs = _list_jobs(lacking, pool, shelf, lost)
    bind_one_by_one = partial(_bind_one_by_one, pool)
    in_turn = run_in_turn(pool, jobs, _MOST_JOBS_AHEAD, on_loss=bind_one_by_one)
    yield lost
    for batch, bound in in_turn:
        for (each, _), content in zip(batch, bound, strict=True):
            if isinstance(content, Loss):
                lost.append(LostPack(each.pack, content.reason))
                continue
            shelf.put(each.key, content)
            each.run.write_pack(each.pack, content)


def _bind_one_by_one(pool: Executor, batch: _Batch, reason: str) -> tuple[bytes | Loss, ...]:
    return run_one_by_one(pool, run_packs, [parts for _, parts in batch], reason)


def _write_known(run: PaperRun, shelf: Shelf) -> Iterator[_Lacking]:
    """Write the packs that the cache has, and yield those that it lacks."""
    for pack in run.packs:
        key = run.key_pack(pack)
        piece = shelf.get(key)
        if piece is None:
            yield _Lacking(run, pack, key, run.count_leaves(pack))
        else:
            run.write_pack(pack, piece)


def _list_jobs(
    lacking: Sequence[_Lacking], pool: Executor, shelf: Shelf, lost: list[LostPack]
) -> Iterator[Job[_Batch, tuple[PackParts, ...], tuple[bytes | Loss, ...]]]:
    """Yield what workers are to bind, when the parts are there that were to be printed first."""
    keys = {each.key: key_contents(each.pack, each.leaves) for each in lacking}
    printed, reasons = _find_or_print(
        [Job(keys[each.key], run_contents, (each.pack, each.leaves)) for each in lacking],
        pool,
        shelf,
    )
    lacking = _leave_out_lost(lacking, lambda each: (keys[each.key],), reasons, lost)
    contents = {each.key: Contents.from_bytes(printed[keys[each.key]]) for each in lacking}
    sheets = {each.key: each.list_folios(contents[each.key]) for each in lacking}
    wanted = dict.fromkeys(sheet for own in sheets.values() for sheet in own)
    folios, reasons = _find_or_print(
        [Job(key_folios(*sheet), run_folios, sheet) for sheet in wanted], pool, shelf
    )
    names = {key: [key_folios(*sheet) for sheet in own] for key, own in sheets.items()}
    lacking = _leave_out_lost(lacking, lambda each: names[each.key], reasons, lost)
    for batch in _deal(lacking):
        parts = tuple(
            each.gather(contents[each.key], map(folios.__getitem__, names[each.key]))
            for each in batch
        )
        yield Job(tuple(zip(batch, parts, strict=True)), run_packs, parts)


def _leave_out_lost(
    lacking: Sequence[_Lacking],
    list_parts: Callable[[_Lacking], Iterable[str]],
    reasons: Mapping[str, str],
    lost: list[LostPack],
) -> Sequence[_Lacking]:
    """Return the packs that have all of their parts, by the keys of these; note the others."""
    whole = []
    for each in lacking:
        reason = next((reasons[part] for part in list_parts(each) if part in reasons), "")
        if reason:
            lost.append(LostPack(each.pack, reason))
        else:
            whole.append(each)
    return whole


def _deal(lacking: Sequence[_Lacking]) -> Iterator[Sequence[_Lacking]]:
    """Deal packs out to jobs in their order; one that is longer than a job should be is alone."""
    batch: list[_Lacking] = []
    for each in lacking:
        if batch and sum(len(one.leaves) for one in (*batch, each)) > _CARDS_PER_JOB:
            yield tuple(batch)
            batch = []
        batch.append(each)
    if batch:
        yield tuple(batch)


def _find_or_print(
    jobs: Sequence[Job[str, Any, bytes]], pool: Executor, shelf: Shelf
) -> tuple[dict[str, bytes], dict[str, str]]:
    """Return pieces by their keys, which are the jobs' labels, and why others were lost.

    What the cache lacks is printed.
    """
    found = {job.label: shelf.get(job.label) for job in jobs}
    pieces = {key: piece for key, piece in found.items() if piece is not None}
    reasons: dict[str, str] = {}

    def note(key: str, reason: str) -> bytes:
        reasons[key] = reason
        return b""

    missing = [job for job in jobs if job.label not in pieces]
    for key, piece in run_in_turn(pool, missing, on_loss=note):
        if key not in reasons:
            shelf.put(key, piece)
            pieces[key] = piece
    return pieces, reasons
