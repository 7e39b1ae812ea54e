"""All posters of a course: painted side by side, what the cache has isn't painted again."""

from collections.abc import Callable, Mapping
from concurrent.futures import Executor
from dataclasses import dataclass

from builder.publishing.cards.keys import key_piece
from builder.publishing.cards.run import Shelf
from builder.publishing.cards.window import Job, run_in_turn
from builder.publishing.posters.poster import Poster

_POSTERS_PER_BATCH = 8


@dataclass(frozen=True, slots=True)
class WantedPoster:
    """A poster that isn't laid out yet."""

    told: str
    """All that it is made from."""
    make: Callable[[], Poster]


def paint_all(
    posters: Mapping[str, WantedPoster], *, pool: Executor, shelf: Shelf
) -> dict[str, bytes]:
    """Return posters as PNG by their names; only those that are painted are laid out."""
    keys = {name: key_piece("poster", poster.told) for name, poster in posters.items()}
    pictures = {name: picture for name, key in keys.items() if (picture := shelf.get(key))}
    missing = [name for name in posters if name not in pictures]
    batches = [
        missing[start : start + _POSTERS_PER_BATCH]
        for start in range(0, len(missing), _POSTERS_PER_BATCH)
    ]
    jobs = (Job(each, _paint, tuple(posters[name].make() for name in each)) for each in batches)
    for batch, results in run_in_turn(pool, jobs):
        for name, picture in zip(batch, results, strict=True):
            shelf.put(keys[name], picture)
            pictures[name] = picture
    return pictures


def _paint(posters: tuple[Poster, ...]) -> tuple[bytes, ...]:
    """Paint in a worker process; the engine is loaded here and not before."""
    from builder.publishing.posters.paint import paint_posters  # noqa: PLC0415  # loads in 0.4 s

    return paint_posters(posters)
