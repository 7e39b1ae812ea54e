"""A secret of this user, by which the tool tells what it wrote itself from what was put there."""

import os
import secrets
import tempfile
from contextlib import suppress
from pathlib import Path

_BYTES = 32


def read_secret() -> bytes | None:
    """Return the user's secret, made where there is none; None where it can't be kept.

    It lies outside of every project, so that no project can bring it along.
    """
    try:
        path = _find_place()
        secret = _read(path)
        if secret is None:
            _write(path, secrets.token_bytes(_BYTES))
            secret = _read(path)  # of two that write at once, both take what stays
    except (OSError, RuntimeError):  # the second where nobody knows the user's home
        return None
    return secret


def _find_place() -> Path:
    home = os.environ.get("XDG_CACHE_HOME") or Path.home() / ".cache"
    return Path(home) / "tempoleaf" / "own.key"


def _read(path: Path) -> bytes | None:
    with suppress(FileNotFoundError):
        secret = path.read_bytes()
        return secret if len(secret) == _BYTES else None
    return None


def _write(path: Path, secret: bytes) -> None:
    path.parent.mkdir(parents=True, exist_ok=True)
    handle, name = tempfile.mkstemp(dir=path.parent, prefix=".new-")
    fresh = Path(name)
    try:
        with os.fdopen(handle, "wb") as file:
            file.write(secret)
        fresh.replace(path)
    finally:
        fresh.unlink(missing_ok=True)
