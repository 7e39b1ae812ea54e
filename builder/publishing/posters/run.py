"""All posters of a course: painted side by side, what the cache has isn't painted again."""

import hashlib
from collections.abc import Mapping
from concurrent.futures import Executor

from builder.publishing.cards.keys import describe_tool
from builder.publishing.cards.run import Shelf
from builder.publishing.posters.poster import Poster

_POSTERS_PER_BATCH = 8


def paint_all(posters: Mapping[str, Poster], *, pool: Executor, shelf: Shelf) -> dict[str, bytes]:
    """Return posters as PNG by their names."""
    keys = {name: _key(poster) for name, poster in posters.items()}
    pictures = {name: picture for name, key in keys.items() if (picture := shelf.get(key))}
    missing = [name for name in posters if name not in pictures]
    batches = [
        missing[start : start + _POSTERS_PER_BATCH]
        for start in range(0, len(missing), _POSTERS_PER_BATCH)
    ]
    painted = pool.map(_paint, [tuple(posters[name] for name in batch) for batch in batches])
    for batch, results in zip(batches, painted, strict=True):
        for name, picture in zip(batch, results, strict=True):
            shelf.put(keys[name], picture)
            pictures[name] = picture
    return pictures


def _paint(posters: tuple[Poster, ...]) -> tuple[bytes, ...]:
    """Paint in a worker process; the engine is loaded here and not before."""
    from builder.publishing.posters.paint import paint_posters  # noqa: PLC0415  # loads in 0.4 s

    return paint_posters(posters)


def _key(poster: Poster) -> str:
    said = "\0".join((describe_tool(), repr(poster)))
    return hashlib.sha256(said.encode()).hexdigest()
