"""The cache by content."""

import os
import time
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


def age(folder: Path, key: str, days: float) -> None:
    """Make a piece look as if it had been used so long ago."""
    moment = time.time() - days * 24 * 60 * 60
    os.utime(folder / key[:2] / key[2:], (moment, moment))


def test_what_was_used_longest_ago_goes_first(tmp_path: Path) -> None:
    store = ContentStore(tmp_path)
    for key, days in ((KEY, 2), (OTHER_KEY, 3)):
        store.put(key, b"piece")
        age(tmp_path, key, days)
    store.sweep(40)
    assert (store.get(KEY), store.get(OTHER_KEY)) == (b"piece", None)


def test_what_was_used_today_stays_however_much_it_is(tmp_path: Path) -> None:
    store = ContentStore(tmp_path)
    for key in (KEY, OTHER_KEY):
        store.put(key, b"piece")
        age(tmp_path, key, 3)
    store.get(KEY)
    store.sweep(0)
    assert (store.get(KEY), store.get(OTHER_KEY)) == (b"piece", None)
