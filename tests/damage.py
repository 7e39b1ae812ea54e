"""What may have become of a file that is kept, by the name of the damage."""

import hashlib
from collections.abc import Callable
from pathlib import Path


def _put_a_folder(path: Path) -> None:
    path.unlink()
    path.mkdir()
    (path / "inside").write_text("nobody's", encoding="utf-8")


def _put_random_bytes(path: Path) -> None:
    path.write_bytes(hashlib.shake_256(b"any").digest(path.stat().st_size + 1))


DAMAGES: dict[str, Callable[[Path], object]] = {
    "cut short": lambda path: path.write_bytes(path.read_bytes()[:-1]),
    "empty": lambda path: path.write_bytes(b""),
    "random": _put_random_bytes,
    "a folder": _put_a_folder,
}
