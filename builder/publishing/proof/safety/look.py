"""Looks for the words that must be seen on everything that shows a lesson, on all cores."""

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass
from functools import partial
from typing import Any

from builder.errors import BuilderError
from builder.input_limits import READ_BACK_SECONDS
from builder.publishing.cards.words import is_caution
from builder.publishing.proof.safety.evidence import Artefact, Kind
from builder.publishing.proof.safety.in_page import sight_in_page
from builder.publishing.proof.safety.in_pdf import Answer, Asked, sight_in_parts
from builder.publishing.proof.safety.sighting import Lack, Sighting
from builder.publishing.proof.safety.source import Source
from builder.work.bounded_share import share_bounded
from builder.work.kept import Kept
from builder.work.plain import find_maker, make_plain
from builder.work.share import share

Sightings = Mapping[str, Sighting]
Job = tuple[int, ...]
"""The numbers of the looks at one file."""
Run = Callable[[Callable[[Job], Sequence[Sightings]], Sequence[Job]], Sequence[Any]]
"""Has each job done, and returns what was made of it in order, None where it was lost."""
_AT_ONCE = 16
"""So many parts of one file are a job: a pack of many cards is shared between cores (ours)."""
UNMEASURED = Lack.SMALL
"""What is said of words that are there, and that nobody measured: they are no cautions."""
_UNSOUND = (BuilderError, OSError, ValueError, LookupError, RuntimeError, MemoryError)
"""What damaged files make their readers raise: nothing is seen there."""
_KEEPS = tuple[Sighting, ...]


@dataclass(frozen=True, slots=True)
class Look:
    """One artefact, and the words that must be seen on it by their names."""

    artefact: Artefact
    wanted: Mapping[str, str]


def look_at_all(source: Source, looks: Sequence[Look], kept: Kept | None = None) -> list[Sightings]:
    """Return what was seen of each look; what the same bytes showed before may be kept.

    Whoever brings ``kept`` saves it.
    """
    return _look_at_all(source, looks, kept, share)


def look_at_strange(
    source: Source, looks: Sequence[Look], seconds: float = READ_BACK_SECONDS.most
) -> list[Sightings]:
    """Return what was seen of each look at files that may come from anybody.

    A file that takes more ``seconds`` to be read, or too much memory, shows nothing.
    """
    return _look_at_all(source, looks, None, partial(share_bounded, seconds=seconds))


def _look_at_all(
    source: Source, looks: Sequence[Look], kept: Kept | None, run: Run
) -> list[Sightings]:
    keys = [_key(source, look) for look in looks] if kept else [""] * len(looks)
    found = {number: seen for number, key in enumerate(keys) if (seen := _fetch(kept, key))}
    jobs = _deal(looks, (number for number in range(len(looks)) if number not in found))
    for job, made in zip(jobs, run(partial(_look, source, looks), jobs), strict=True):
        all_seen = made or [_see_nothing(looks[number], Lack.UNREAD) for number in job]
        for number, seen in zip(job, all_seen, strict=True):
            found[number] = seen
            if kept and keys[number]:
                kept.put(keys[number], make_plain(tuple(seen.values())))
    return [found[number] for number in range(len(looks))]


def _key(source: Source, look: Look) -> str:
    """Return the key of what a look finds; empty where the artefact can't be read."""
    try:
        return source.key(look.artefact, dict(look.wanted))
    except OSError:
        return ""


def _fetch(kept: Kept | None, key: str) -> Sightings | None:
    piece = kept.get(key) if kept and key else None
    if piece is None:
        return None
    sightings: tuple[Sighting, ...] = find_maker(_KEEPS)(piece)
    return {sighting.name: sighting for sighting in sightings}


def _deal(looks: Sequence[Look], missing: Iterable[int]) -> list[tuple[int, ...]]:
    """Deal looks out to jobs of one file each, those with most to look at first."""
    by_file: dict[str, list[int]] = {}
    for number in missing:
        by_file.setdefault(looks[number].artefact.file, []).append(number)
    jobs = [
        tuple(numbers[start : start + _AT_ONCE])
        for numbers in by_file.values()
        for start in range(0, len(numbers), _AT_ONCE)
    ]
    return sorted(jobs, key=lambda job: (-len(job), job))


def _look(source: Source, looks: Sequence[Look], job: Sequence[int]) -> Sequence[Sightings]:
    """Return what is seen of parts of one file; nothing is where it can't be read."""
    mine = [looks[number] for number in job]
    try:
        if mine[0].artefact.kind in (Kind.CARD, Kind.PACK):
            content = source.read(mine[0].artefact.file)
            answers = sight_in_parts(content, list(map(_ask, mine)))
            return [_tell(look, answer) for look, answer in zip(mine, answers, strict=True)]
        return [_look_at_words(source, look) for look in mine]
    except _UNSOUND:
        return [_see_nothing(look) for look in mine]


def _ask(look: Look) -> Asked:
    """Ask to see the cautions; which lesson it is need only be said, which is much quicker."""
    pages = look.artefact.pages
    return Asked(
        slice(pages.first - 1, pages.last) if pages else slice(None),
        {name: words for name, words in look.wanted.items() if is_caution(name)},
        {name: words for name, words in look.wanted.items() if not is_caution(name)},
    )


def _tell(look: Look, answer: Answer) -> Sightings:
    """Put together what was seen and what was said; of the latter nobody knows how it looks."""
    said = {
        name: Sighting(name, None, UNMEASURED if name in answer.said else Lack.ABSENT)
        for name in look.wanted
    }
    return said | answer.seen


def _look_at_words(source: Source, look: Look) -> Sightings:
    each = look.artefact
    try:
        if each.kind is Kind.PAGE:
            return sight_in_page(source.read, each.file, look.wanted)
        if not source.is_in_order(each):
            return _see_nothing(look)
        return sight_in_page(source.open_book(each.file), each.chapter, look.wanted)
    except _UNSOUND:
        return _see_nothing(look)


def _see_nothing(look: Look, lack: Lack = Lack.ABSENT) -> Sightings:
    return {name: Sighting(name, None, lack) for name in look.wanted}
