"""Rows that are read in turns: all ways of taking turns on small ones give the same answer."""

from itertools import product

import pytest

from builder.publishing.proof.structure.interleaving import interleave


def weave(rows: list[list[str]], turns: tuple[int, ...]) -> str | None:
    """Return the text of one way of taking turns; None where a row is too short for it."""
    parts = [list(row) for row in rows]
    try:
        text = "".join(parts[turn].pop(0) for turn in turns)
    except IndexError:
        return None
    return text if not any(parts) else None


@pytest.mark.parametrize(
    "rows", [[["a", "b"], ["c"]], [["ab", "a"], ["a", "bc"]], [["x"], ["y", "x"], ["xy"]]]
)
def test_a_text_is_taken_just_where_some_way_of_taking_turns_gives_it(
    rows: list[list[str]],
) -> None:
    count = sum(map(len, rows))
    possible = {weave(rows, turns) for turns in product(range(len(rows)), repeat=count)} - {None}
    letters = sorted(set("".join(map("".join, rows))))
    length = sum(len(part) for row in rows for part in row)
    for signs in product(letters, repeat=length):
        wanted = "".join(signs)
        assert (interleave(rows, wanted) is not None) == (wanted in possible)


def test_it_is_told_where_each_part_begins() -> None:
    assert interleave([["ab", "e"], ["cd"]], "abcde") == (0, 4, 2)
    assert interleave([["ab"]], "ba") is None
