"""Rows of texts that are read in turns: whether they come together to one text."""

from collections.abc import Iterator, Sequence
from typing import TypeAlias

_MOST_TRIES = 200_000
"""Rows in our files part in a few places; this many tries are far more than they need (ours)."""
_State: TypeAlias = tuple[int, ...]


def interleave(rows: Sequence[Sequence[str]], wanted: str) -> tuple[int, ...] | None:
    """Return where in a text each part of each row begins, if the rows in turns are that text.

    Each row keeps its order; None where no way of taking turns gives the text.
    """
    start: _State = tuple(0 for _ in rows)
    before: dict[_State, tuple[_State, int]] = {}
    seen, waiting = {start}, [(start, 0)]
    end = tuple(len(row) for row in rows)
    for _ in range(_MOST_TRIES):
        if not waiting:
            return None
        state, at = waiting.pop()
        if state == end:
            return _trace(rows, before, end) if at == len(wanted) else None
        for number, after, length in _list_steps(rows, state, wanted, at):
            if after not in seen:
                seen.add(after)
                before[after] = state, number
                waiting.append((after, at + length))
    return None


def _list_steps(
    rows: Sequence[Sequence[str]], state: _State, wanted: str, at: int
) -> Iterator[tuple[int, _State, int]]:
    for number, (row, index) in enumerate(zip(rows, state, strict=True)):
        if index < len(row) and wanted.startswith(row[index], at):
            after = (*state[:number], index + 1, *state[number + 1 :])
            yield number, after, len(row[index])


def _trace(
    rows: Sequence[Sequence[str]], before: dict[_State, tuple[_State, int]], end: _State
) -> tuple[int, ...]:
    """Return the beginnings by the way that led to the end."""
    steps: list[tuple[int, int]] = []
    state = end
    while state in before:
        state, number = before[state]
        steps.append((number, state[number]))
    starts: dict[tuple[int, int], int] = {}
    at = 0
    for number, index in reversed(steps):
        starts[number, index] = at
        at += len(rows[number][index])
    return tuple(
        starts[number, index] for number, row in enumerate(rows) for index in range(len(row))
    )
