"""The cache by content."""

from hashlib import sha256
from pathlib import Path

from builder.work.store import ContentStore

KEY = sha256(b"card").hexdigest()
OTHER_KEY = sha256(b"another").hexdigest()


def test_a_piece_comes_back_from_another_store_on_the_same_folder(tmp_path: Path) -> None:
    ContentStore(tmp_path).put(KEY, b"piece")
    assert ContentStore(tmp_path).get(KEY) == b"piece"
    assert ContentStore(tmp_path).get(OTHER_KEY) is None


def test_a_damaged_piece_is_no_piece(tmp_path: Path) -> None:
    store = ContentStore(tmp_path)
    store.put(KEY, b"piece")
    (path,) = [path for path in tmp_path.rglob("*") if path.is_file()]
    path.write_bytes(path.read_bytes()[:-1])
    assert store.get(KEY) is None


def test_nothing_half_written_lies_about(tmp_path: Path) -> None:
    store = ContentStore(tmp_path)
    for number in range(3):
        store.put(KEY, bytes([number]))
    assert len([path for path in tmp_path.rglob("*") if path.is_file()]) == 1
