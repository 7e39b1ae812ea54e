"""The starter's placement table in a course that lacks some lessons, its comments kept."""

import re
from collections.abc import Collection, Iterator
from itertools import takewhile

_STRAND = re.compile(r"^  - strand: ([a-z0-9-]+)")
_LESSON = re.compile(r"\blesson: ([a-z0-9-]+)")
_WAY = re.compile(r"^      - ")
_QUESTION = re.compile(r"^  - id: ")
_FROM_LESSON = re.compile(r"^    (lesson|measure|words): ")
"""Lines of a question that mean nothing without its lesson."""
_READY = "    ready:\n"
_READY_IN = re.compile(r"^      [a-z0-9-]+: ([a-z0-9-]+)")


def keep_placement(text: str, strands: Collection[str], lessons: Collection[str]) -> str:
    """Take out strands and lessons that didn't come.

    A strand whose way for everybody led to a lost lesson goes too, since people would be sent
    nowhere.
    """
    head, *blocks = _split(text, _STRAND)
    kept = [_keep_in_question(part, lessons) for part in _split(head, _QUESTION)]
    for block in blocks:
        strand = _STRAND.match(block)
        ways = _keep_known(block, lessons)
        last = [line for line in block.splitlines() if _WAY.match(line)][-1]
        if strand and strand[1] in strands and last in ways.splitlines():
            kept.append(ways)
    return "".join(kept)


def _split(text: str, first_line: re.Pattern[str]) -> Iterator[str]:
    """Yield what stands before the first part, then each part."""
    part: list[str] = []
    for line in text.splitlines(keepends=True):
        if first_line.match(line):
            yield "".join(part)
            part = []
        part.append(line)
    yield "".join(part)


def _keep_known(text: str, lessons: Collection[str]) -> str:
    """Take out the lines that name a lesson that isn't there."""
    lines = text.splitlines(keepends=True)
    return "".join(line for line in lines if set(_LESSON.findall(line)) <= set(lessons))


def _keep_in_question(text: str, lessons: Collection[str]) -> str:
    """Take out what needs a lesson that isn't there, and leave the question."""
    lines = text.splitlines(keepends=True)
    if not set(_LESSON.findall(text)) <= set(lessons):
        lines = [line for line in lines if not _FROM_LESSON.match(line)]
    return "".join(_keep_ready(lines, lessons))


def _keep_ready(lines: list[str], lessons: Collection[str]) -> list[str]:
    """Take out of a question's ``ready`` what isn't there, and all of it where nothing stays."""
    if _READY not in lines:
        return lines
    start = lines.index(_READY) + 1
    entries = list(takewhile(_READY_IN.match, lines[start:]))
    kept = [line for line in entries if set(_READY_IN.findall(line)) <= set(lessons)]
    head = lines[:start] if kept else lines[: start - 1]
    return [*head, *kept, *lines[start + len(entries) :]]
