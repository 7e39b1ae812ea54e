"""Set up everything that tempoleaf needs, then run it: the way in from a fresh clone.

Standard library only. The file parses on Python 3.8 too, so that an older Python meets a
clear sentence rather than a syntax error; what it hands over to needs Python 3.11.
"""

from __future__ import annotations

import sys
from pathlib import Path

OLDEST = (3, 11)


def refusal(version: tuple[int, ...], program: str) -> str | None:
    """Say why this Python can't run tempoleaf, or nothing when it can."""
    if version[:2] >= OLDEST:
        return None
    found = ".".join(str(part) for part in version[:3])
    return (
        f"tempoleaf needs Python 3.11 or newer, and {program} is Python {found}: install a newer "
        "Python and start this file with it, such as `python3.11 builder/start.py demo`."
    )


def main() -> int:
    """Check the Python that runs this file, then set up and run what was asked for."""
    refused = refusal(tuple(sys.version_info[:3]), sys.executable)
    if refused is not None:
        print(refused, file=sys.stderr)
        return 2
    root = Path(__file__).resolve().parent.parent
    sys.path[0] = str(root)
    from builder.machine.way_in import run  # noqa: PLC0415 - only Python 3.11 can read it

    return run(root, tuple(sys.argv[1:]), lambda line: print(line, flush=True))


if __name__ == "__main__":
    sys.exit(main())
