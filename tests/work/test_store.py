"""The cache by content."""

from pathlib import Path

from hypothesis import given
from hypothesis import strategies as st

from builder.work.store import ContentStore, make_key


def test_a_piece_comes_back_from_another_store_on_the_same_folder(tmp_path: Path) -> None:
    key = make_key("card", b"face")
    ContentStore(tmp_path).put(key, b"piece")
    assert ContentStore(tmp_path).get(key) == b"piece"
    assert ContentStore(tmp_path).get(make_key("card", b"other")) is None


def test_a_damaged_piece_is_no_piece(tmp_path: Path) -> None:
    store = ContentStore(tmp_path)
    key = make_key("card")
    store.put(key, b"piece")
    (path,) = [path for path in tmp_path.rglob("*") if path.is_file()]
    path.write_bytes(path.read_bytes()[:-1])
    assert store.get(key) is None


def test_nothing_half_written_lies_about(tmp_path: Path) -> None:
    store = ContentStore(tmp_path)
    for number in range(3):
        store.put(make_key("card"), bytes([number]))
    assert len([path for path in tmp_path.rglob("*") if path.is_file()]) == 1


def test_only_named_pieces_are_kept(tmp_path: Path) -> None:
    store = ContentStore(tmp_path)
    keys = [make_key(name) for name in ("a", "b", "c")]
    for key in keys:
        store.put(key, b"piece")
    store.keep_only(keys[:1])
    assert [store.get(key) for key in keys] == [b"piece", None, None]


@given(st.lists(st.text(), max_size=4), st.lists(st.text(), max_size=4))
def test_keys_differ_when_parts_do(first: list[str], second: list[str]) -> None:
    assert (make_key(*first) == make_key(*second)) == (first == second)
