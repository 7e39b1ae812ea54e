"""Plain files, read up to a limit: pipes, devices and endless files never get hold of a run."""

import os
import stat
from errno import EINVAL
from pathlib import Path

_WITHOUT_WAITING = getattr(os, "O_NONBLOCK", 0) | getattr(os, "O_BINARY", 0)
"""A pipe that nobody writes to is opened at once; the second is for Windows."""


class TooLargeError(ValueError):
    """A file has more bytes than it may have."""

    def __init__(self, size: int) -> None:
        super().__init__(f"{size} bytes")
        self.size = size


def read_plain(path: Path, most_bytes: int) -> bytes:
    """Return the bytes of a plain file.

    A file that grows meanwhile is read as far as it went, and a byte more. Raises TooLargeError
    for a larger one and OSError for what is no plain file, both before anything is read.
    """
    with os.fdopen(os.open(path, os.O_RDONLY | _WITHOUT_WAITING), "rb") as file:
        state = os.fstat(file.fileno())
        if not stat.S_ISREG(state.st_mode):
            raise OSError(EINVAL, "no plain file", str(path))
        if state.st_size > most_bytes:
            raise TooLargeError(state.st_size)
        content = file.read(state.st_size + 1)
        if len(content) > most_bytes:
            raise TooLargeError(len(content))
        return content
