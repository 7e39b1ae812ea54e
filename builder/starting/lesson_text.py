"""A lesson's file in a course that lacks some of the lessons that come after it."""

import re
from collections.abc import Collection

_FENCE = "---"
_KEY = re.compile(r"[^\s#-]")
_NAME = re.compile(r"[a-z0-9]+(?:-[a-z0-9]+)*")


def keep_harder(text: str, known: Collection[str]) -> str:
    """Take unknown lessons out of ``harder``; every other byte of the file stays."""
    lines = text.splitlines(keepends=True)
    start = next((at for at, line in enumerate(lines) if line.startswith("harder:")), None)
    fences = [at for at, line in enumerate(lines) if line.rstrip() == _FENCE]
    if start is None or len(fences) < 2 or start > fences[1]:
        return text
    end = start + 1
    while not _KEY.match(lines[end]) and lines[end].rstrip() != _FENCE:
        end += 1
    value = "".join(lines[start:end]).removeprefix("harder:")
    names = _NAME.findall(re.sub(r"\s#.*", "", value))
    kept = [name for name in names if name in known]
    if kept == names:
        return text
    ending = "\r\n" if lines[start].endswith("\r\n") else "\n"
    return "".join((*lines[:start], f"harder: [{', '.join(kept)}]{ending}", *lines[end:]))
