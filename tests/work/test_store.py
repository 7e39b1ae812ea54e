"""The cache by content."""

import os
import time
from concurrent.futures import ThreadPoolExecutor
from contextlib import suppress
from hashlib import sha256
from pathlib import Path

import pytest

from builder.work.store import ContentStore
from tests.damage import DAMAGES

KEY = sha256(b"card").hexdigest()
OTHER_KEY = sha256(b"another").hexdigest()


def test_a_piece_comes_back_from_another_store_on_the_same_folder(tmp_path: Path) -> None:
    ContentStore(tmp_path).put(KEY, b"piece")
    assert ContentStore(tmp_path).get(KEY) == b"piece"
    assert ContentStore(tmp_path).get(OTHER_KEY) is None


@pytest.mark.parametrize("kind", DAMAGES)
def test_a_damaged_piece_is_no_piece_and_is_kept_anew(tmp_path: Path, kind: str) -> None:
    store = ContentStore(tmp_path)
    store.put(KEY, b"piece")
    (path,) = [path for path in tmp_path.rglob("*") if path.is_file()]
    DAMAGES[kind](path)
    assert store.get(KEY) is None
    store.put(KEY, b"piece")
    assert store.get(KEY) == b"piece"


def test_what_another_user_wrote_is_no_piece(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / "stranger"))
    ContentStore(tmp_path).put(KEY, b"piece")
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / "own"))
    assert ContentStore(tmp_path).get(KEY) is None


def test_a_piece_that_bears_only_a_digest_is_no_piece(tmp_path: Path) -> None:
    store = ContentStore(tmp_path)
    store.put(KEY, b"piece")
    (tmp_path / KEY[:2] / KEY[2:]).write_bytes(sha256(b"forged").digest() + b"forged")
    assert store.get(KEY) is None


def test_a_piece_under_another_key_is_no_piece(tmp_path: Path) -> None:
    store = ContentStore(tmp_path)
    store.put(KEY, b"piece")
    other = tmp_path / OTHER_KEY[:2] / OTHER_KEY[2:]
    other.parent.mkdir()
    (tmp_path / KEY[:2] / KEY[2:]).rename(other)
    assert store.get(OTHER_KEY) is None


def test_where_no_secret_can_be_kept_a_run_uses_its_own_pieces_alone(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    (tmp_path / "file").touch()
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / "file"))
    store = ContentStore(tmp_path / "cache")
    store.put(KEY, b"piece")
    assert (store.get(KEY), ContentStore(tmp_path / "cache").get(KEY)) == (b"piece", None)


def test_nothing_half_written_lies_about(tmp_path: Path) -> None:
    store = ContentStore(tmp_path)
    for number in range(3):
        store.put(KEY, bytes([number]))
    assert len([path for path in tmp_path.rglob("*") if path.is_file()]) == 1


def age(folder: Path, key: str, days: float) -> None:
    """Make a piece look as if it had been used so long ago."""
    moment = time.time() - days * 24 * 60 * 60
    with suppress(FileNotFoundError):  # another run has made room
        os.utime(folder / key[:2] / key[2:], (moment, moment))


def test_what_was_used_longest_ago_goes_first(tmp_path: Path) -> None:
    store = ContentStore(tmp_path)
    for key, days in ((KEY, 2), (OTHER_KEY, 3)):
        store.put(key, b"piece")
        age(tmp_path, key, days)
    store.sweep(40)
    assert (store.get(KEY), store.get(OTHER_KEY)) == (b"piece", None)


def test_what_a_run_used_stays_however_long_the_run_takes(tmp_path: Path) -> None:
    store = ContentStore(tmp_path, began_at=time.time() - 3 * 24 * 60 * 60)
    for key, days in ((KEY, 2), (OTHER_KEY, 4)):
        store.put(key, b"piece")
        age(tmp_path, key, days)
    store.sweep(0)
    assert (store.get(KEY), store.get(OTHER_KEY)) == (b"piece", None)


def test_a_run_that_added_nothing_looks_at_nothing(tmp_path: Path) -> None:
    ContentStore(tmp_path).put(KEY, b"piece")
    age(tmp_path, KEY, 3)
    ContentStore(tmp_path).sweep(0)
    assert ContentStore(tmp_path).has(KEY)


def test_what_a_killed_run_was_writing_goes_after_a_day_and_not_before(tmp_path: Path) -> None:
    store = ContentStore(tmp_path)
    store.put(KEY, b"piece")
    for days in (0, 2):
        half = tmp_path / KEY[:2] / f".new-{days}"
        half.write_bytes(b"pie")
        moment = time.time() - days * 24 * 60 * 60
        os.utime(half, (moment, moment))
    store.sweep()
    assert sorted(path.name for path in (tmp_path / KEY[:2]).iterdir()) == [".new-0", KEY[2:]]


def test_two_runs_may_make_room_and_use_the_cache_at_once(tmp_path: Path) -> None:
    keys = [sha256(bytes([number])).hexdigest() for number in range(60)]

    def run(turn: int) -> list[bytes | None]:
        store = ContentStore(tmp_path)
        found = []
        for key in keys[turn:] + keys[:turn]:
            store.put(key, key.encode())
            age(tmp_path, key, 2)
            found.append(store.get(key))
            store.sweep(300)
        return found

    with ThreadPoolExecutor(4) as pool:
        answers = [pool.submit(run, turn * 15) for turn in range(4)]
        found = {each for answer in answers for each in answer.result()}
    assert found <= {None, *(key.encode() for key in keys)}
    assert len(found) > 1


def test_what_was_used_today_stays_however_much_it_is(tmp_path: Path) -> None:
    store = ContentStore(tmp_path)
    for key in (KEY, OTHER_KEY):
        store.put(key, b"piece")
        age(tmp_path, key, 3)
    store.get(KEY)
    store.sweep(0)
    assert (store.get(KEY), store.get(OTHER_KEY)) == (b"piece", None)


def test_a_folder_in_place_of_a_piece_makes_way(tmp_path: Path) -> None:
    store = ContentStore(tmp_path / "cache")
    store.put(KEY, b"piece")
    piece = next(path for path in (tmp_path / "cache").rglob("*") if path.is_file())
    piece.unlink()
    (piece / "deep").mkdir(parents=True)
    assert store.get(KEY) is None
    store.put(KEY, b"piece")
    assert store.get(KEY) == b"piece"


def test_a_file_in_place_of_a_folder_of_pieces_makes_way(tmp_path: Path) -> None:
    (tmp_path / "cache").mkdir()
    (tmp_path / "cache" / KEY[:2]).write_text("in the way")
    store = ContentStore(tmp_path / "cache")
    store.put(KEY, b"piece")
    assert store.get(KEY) == b"piece"


def test_where_nothing_can_be_kept_work_goes_on_without(tmp_path: Path) -> None:
    (tmp_path / "cache").write_text("a file of somebody's")
    store = ContentStore(tmp_path / "cache")
    store.put(KEY, b"piece")
    assert store.get(KEY) is None
    assert (tmp_path / "cache").read_text() == "a file of somebody's"
