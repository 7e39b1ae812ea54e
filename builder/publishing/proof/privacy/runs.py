"""What could be words in bytes that are no text."""

import re
from collections.abc import Iterator

_NARROW = re.compile(rb"[\x20-\x7e\x80-\xf4]{6,}")
_LITTLE_END_FIRST = re.compile(rb"(?:[\x20-\xff][\0-\x05]){4,}")
_BIG_END_FIRST = re.compile(rb"(?:[\0-\x05][\x20-\xff]){4,}")
"""UTF-16 of letters up to Cyrillic, as tags of sound and old documents are written."""


def find_runs(content: bytes) -> str:
    """Return what could be words, each run on a line of its own."""
    return "\n".join(_list_runs(content))


def decode_wide(content: bytes) -> str:
    """Return what bytes of two a letter say, whichever comes first."""
    return f"{content.decode('utf-16-le', 'replace')} {content.decode('utf-16-be', 'replace')}"


def _list_runs(content: bytes) -> Iterator[str]:
    for run in _NARROW.findall(content):
        yield run.decode("utf-8", "ignore")
    if b"\0" in content:
        for run in _LITTLE_END_FIRST.findall(content):
            yield run.decode("utf-16-le", "ignore")
        for run in _BIG_END_FIRST.findall(content):
            yield run.decode("utf-16-be", "ignore")
