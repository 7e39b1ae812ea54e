"""Texts from a shelf: what it lacks is made, once, and in its place."""

from functools import partial

from builder.publishing.fetching import Wanted, fetch_all
from tests.counting_shelf import CountingShelf


def want(names: str) -> tuple[Wanted, ...]:
    return tuple(Wanted(partial(str, f"key {name}"), partial(str.upper, name)) for name in names)


def test_texts_come_in_their_order_with_and_without_a_shelf() -> None:
    many = "abcdefghijklmnopqrstuvwxyz"  # enough to be shared with copies of the process
    assert "".join(fetch_all(None, want(many))) == many.upper()
    assert "".join(fetch_all(CountingShelf(), want(many))) == many.upper()


def test_only_what_a_shelf_lacks_is_made() -> None:
    shelf = CountingShelf({"key b": b"kept"})
    assert fetch_all(shelf, want("abc")) == ["A", "kept", "C"]
    assert shelf.fresh == ["key a", "key c"]
    assert fetch_all(shelf, want("cb")) == ["C", "kept"]
    assert len(shelf.fresh) == 2
