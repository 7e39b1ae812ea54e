"""What is fuzzed: a reader, the files that it is known to read, and the words of its format."""

from collections.abc import Callable
from dataclasses import dataclass, field

from builder.findings import Finding

Again = Callable[[], object]


@dataclass(frozen=True, slots=True)
class Answer:
    """What a reader made of some bytes."""

    value: object = None
    """None where nothing was accepted."""
    findings: tuple[Finding, ...] = ()
    lines: int | None = None
    """How many lines, or rows, the file has; None where a finding's line is not its own."""
    again: Again | None = None
    """Writes what was accepted, reads it back, and returns what came of it."""
    expected: object = None
    """What ``again`` must return."""


@dataclass(frozen=True, slots=True)
class Target:
    """One reader under trial."""

    name: str
    read: Callable[[bytes], Answer]
    seeds: Callable[[], tuple[bytes, ...]]
    """Files that it reads, sound and broken ones, as a start for changes."""
    words: tuple[str, ...] = field(default=())
    """What means something in its format, besides the words of the files themselves."""
    suite_tries: int = 30
    """How many changed files the suite tries."""
    is_zip: bool = False
    """Whether its files are archives, so that their parts are changed too."""


def count_lines(data: bytes) -> int:
    """Count the lines of a text as an editor does: CRLF, CR and LF each end one."""
    return data.replace(b"\r\n", b"\n").replace(b"\r", b"\n").count(b"\n") + 1
