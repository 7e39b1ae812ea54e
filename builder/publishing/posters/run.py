"""All posters of a course: painted side by side, what the cache has isn't painted again."""

from collections.abc import Callable, Iterator, Mapping, Sequence
from concurrent.futures import Executor
from dataclasses import dataclass
from functools import partial

from builder import rules
from builder.findings import Finding, Place
from builder.publishing.cards.keys import key_piece
from builder.publishing.cards.run import Shelf
from builder.publishing.cards.window import Job, Loss, run_in_turn, run_one_by_one
from builder.publishing.posters.poster import Poster

_POSTERS_PER_BATCH = 8


@dataclass(frozen=True, slots=True)
class WantedPoster:
    """A poster that isn't laid out yet."""

    told: str
    """All that it is made from."""
    make: Callable[[], Poster]
    place: Place
    """Where the title stands that is on it."""


@dataclass(frozen=True, slots=True)
class PaintedPosters:
    """Posters as PNG by their names, and findings on those that were lost."""

    pictures: dict[str, bytes]
    faults: tuple[Finding, ...] = ()


def paint_all(
    posters: Mapping[str, WantedPoster], *, pool: Executor, shelf: Shelf
) -> PaintedPosters:
    """Paint posters by their names; only those that the cache lacks are laid out."""
    keys = {name: key_piece("poster", poster.told) for name, poster in posters.items()}
    pictures = {name: picture for name, key in keys.items() if (picture := shelf.get(key))}
    missing = [name for name in posters if name not in pictures]
    faults: list[Finding] = []
    paint_one_by_one = partial(_paint_one_by_one, posters, pool)
    for batch, results in run_in_turn(pool, _list_jobs(posters, missing), on_loss=paint_one_by_one):
        for name, result in zip(batch, results, strict=True):
            if isinstance(result, Loss):
                faults.append(_tell_loss(posters[name], result))
                continue
            shelf.put(keys[name], result)
            pictures[name] = result
    return PaintedPosters(pictures, tuple(faults))


def _list_jobs(
    posters: Mapping[str, WantedPoster], names: Sequence[str]
) -> Iterator[Job[Sequence[str], tuple[Poster, ...], tuple[bytes | Loss, ...]]]:
    for start in range(0, len(names), _POSTERS_PER_BATCH):
        batch = names[start : start + _POSTERS_PER_BATCH]
        yield Job(batch, _paint, tuple(posters[name].make() for name in batch))


def _paint_one_by_one(
    posters: Mapping[str, WantedPoster], pool: Executor, batch: Sequence[str], reason: str
) -> tuple[bytes | Loss, ...]:
    return run_one_by_one(pool, _paint, [posters[name].make() for name in batch], reason)


def _tell_loss(poster: WantedPoster, loss: Loss) -> Finding:
    fact = f"its picture for sharing was not made: {loss.reason}"
    cure = "shorten the title, or see that enough memory is free"
    return rules.MADE_TOO_LONG.at(poster.place, fact, cure)


def _paint(posters: tuple[Poster, ...]) -> tuple[bytes, ...]:
    """Paint in a worker process; the engine is loaded here and not before."""
    from builder.publishing.posters.paint import paint_posters  # noqa: PLC0415  # loads in 0.4 s

    return paint_posters(posters)
