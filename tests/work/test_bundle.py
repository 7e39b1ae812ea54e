"""Many small pieces that are kept as one."""

from pathlib import Path

import pytest

from builder.work.bundle import Bundle, open_bundle
from builder.work.store import ContentStore


def open_in(folder: Path) -> Bundle:
    return open_bundle(ContentStore(folder), "proof")


def fill(folder: Path, *keys: str) -> None:
    bundle = open_in(folder)
    for key in keys:
        bundle.put(key, key.encode())
    bundle.save()


def test_pieces_come_back_with_every_byte(tmp_path: Path) -> None:
    pieces = {"a": b"", "b": b"\n\n[]", "c": bytes(range(256))}
    bundle = open_in(tmp_path)
    for key, piece in pieces.items():
        bundle.put(key, piece)
    bundle.save()
    again = open_in(tmp_path)
    assert {key: again.get(key) for key in (*pieces, "d")} == {**pieces, "d": None}


def test_a_bundle_of_another_name_is_another(tmp_path: Path) -> None:
    fill(tmp_path, "a")
    assert open_bundle(ContentStore(tmp_path), "proof", "es").get("a") is None


def test_a_damaged_bundle_is_empty(tmp_path: Path) -> None:
    fill(tmp_path, "a")
    (path,) = (path for path in tmp_path.rglob("*") if path.is_file())
    path.write_bytes(path.read_bytes()[:-1] + b"?")
    assert open_in(tmp_path).get("a") is None


def test_nothing_is_written_where_nothing_is_new(tmp_path: Path) -> None:
    fill(tmp_path, "a")
    (path,) = (path for path in tmp_path.rglob("*") if path.is_file())
    before = path.stat().st_ino
    bundle = open_in(tmp_path)
    bundle.get("a")
    bundle.save()
    assert path.stat().st_ino == before


def test_it_does_not_grow_with_what_nobody_needs(tmp_path: Path) -> None:
    for run in range(8):
        fill(tmp_path, *(f"{run} {number}" for number in range(20)))
    last = open_in(tmp_path)
    found = [run for run in range(8) if last.get(f"{run} 0")]
    assert found in ([5, 6, 7], [6, 7])


def test_a_folder_that_cannot_be_written_stops_nothing(tmp_path: Path) -> None:
    (tmp_path / "file").touch()
    bundle = open_in(tmp_path / "file")
    bundle.put("a", b"a")
    bundle.save()
    assert bundle.get("a") == b"a"


@pytest.mark.parametrize("key", ["", "é", 'a"b\n'])
def test_any_key_will_do(tmp_path: Path, key: str) -> None:
    fill(tmp_path, key)
    assert open_in(tmp_path).get(key) == key.encode()
