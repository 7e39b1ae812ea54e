"""Two folders that change places in one step, where the system can do that."""

import os
import sys
from pathlib import Path

_HERE = -100
_EXCHANGE = 2
"""AT_FDCWD and RENAME_EXCHANGE, by the manual of Linux, renameat2(2)."""


def exchange(first: Path, second: Path) -> bool:
    """Have two folders change places, so that neither place is ever empty; tell whether they did.

    Nothing has happened where they didn't: one isn't there, or the system or the disk can't.
    """
    if sys.platform != "linux":
        return False
    import ctypes  # noqa: PLC0415  # only who replaces a folder needs it

    rename = getattr(ctypes.CDLL(None), "renameat2", None)
    if rename is None:  # an old library of the system
        return False
    names = (os.fsencode(first), os.fsencode(second))
    return bool(rename(_HERE, names[0], _HERE, names[1], _EXCHANGE) == 0)
