"""The starter's placement table in a course that lacks some lessons, its comments kept."""

import re
from collections.abc import Collection, Iterator

_STRAND = re.compile(r"^  - strand: ([a-z0-9-]+)")
_LESSON = re.compile(r"\blesson: ([a-z0-9-]+)")
_WAY = re.compile(r"^      - ")


def keep_placement(text: str, strands: Collection[str], lessons: Collection[str]) -> str:
    """Take out strands and lessons that didn't come.

    A strand whose way for everybody led to a lost lesson goes too, since people would be sent
    nowhere.
    """
    head, *blocks = _split(text)
    kept = [_keep_known(head, lessons)]
    for block in blocks:
        strand = _STRAND.match(block)
        ways = _keep_known(block, lessons)
        last = [line for line in block.splitlines() if _WAY.match(line)][-1]
        if strand and strand[1] in strands and last in ways.splitlines():
            kept.append(ways)
    return "".join(kept)


def _split(text: str) -> Iterator[str]:
    """Yield what stands before the first strand, then each strand."""
    part: list[str] = []
    for line in text.splitlines(keepends=True):
        if _STRAND.match(line):
            yield "".join(part)
            part = []
        part.append(line)
    yield "".join(part)


def _keep_known(text: str, lessons: Collection[str]) -> str:
    """Take out the lines that name a lesson that isn't there."""
    lines = text.splitlines(keepends=True)
    return "".join(line for line in lines if set(_LESSON.findall(line)) <= set(lessons))
