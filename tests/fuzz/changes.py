"""Changes to a file: small slips of people and programs, and what an attacker would try.

Each change is one number, so that a case is a short row of numbers that hypothesis can shrink.
"""

import re
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from random import Random

from tests.fuzz.kinds import Target
from tests.fuzz.zips import change_zip

LARGEST_BYTES = 200_000
"""What grows beyond it is cut: how large a file may be is another test's question."""

ODDITIES = (
    *("\x00", "\x07", "\x1b[2J", "\x7f", "\x85", "\t", "\v", "\f", "\r", "\r\n", "\n\n"),
    *("\ufeff", "\ufffe", "\uffff", "\u00a0", "\u200b", "\u200d", "\u2028", "\u2029", "\u202e"),
    *("\u2066", "\u00ad", "\u0301", "é", "e\u0301", "ß", "İ", "ı", "ſ", "ﬁ", "Ⅷ", "٣", "²", "½"),
    *("\U0001f642", "\U0001f468\u200d\U0001f469", "\U000e0041", "\U0010ffff", "ﷺ", "𝟜", "－", "−"),
)
NUMBERS = (
    *("0", "-0", "-1", "1e999", "-1e999", "1e-999", "nan", "NaN", ".nan", "inf", "-.inf", "0x1F"),
    *("0o17", "0b1", "1_000", "1,5", "1.", ".5", "00", "+1", "9" * 30, "9" * 400, "0." + "3" * 60),
    *("4294967296", "18446744073709551616", "1.0", "1e3", "2e0", "0.1", "0.25", "0.5", "1e15"),
)
DATES = (
    *("2026-02-30", "0000-01-01", "9999-12-31", "10000-01-01", "2026-13-01", "2026-1-1"),
    *("2026-11-24T00:00:00Z", "2026-11-24 10:00", "24.11.2026", "1582-10-10", "٢٠٢٦-١١-٢٤"),
)
SIGNS = (
    *("---", "...", ":", ": ", "- ", "? ", "[", "]", "{", "}", "[]", "{}", "&a", "*a", "<<: *a"),
    *("!!python/object/apply:os.system", "!!binary", "!x", "|", ">", "|-", ">+9", "%YAML 1.2"),
    *('"', "'", '""', '"\\ud800"', '"\\x00"', '"\\U0010FFFF"', '"\\', "#", " #", "@", "`", "~"),
    *("null", "true", "yes", "on", "=", "=1+1", "'=1", "sep=;", ",", ";", "|", '","', "<", "&"),
    *("&amp;", "&#0;", "&#xD800;", "&lt;", "<!--", "-->", "<![CDATA[", "]]>", "<![x", "<?x"),
    *("<script>", "</svg>", "[[", "]]", "![", "](", "](javascript:x)", "``", "```", "**", "_"),
    *("../", "..\\", "/etc/passwd", "file:///x", "http://[", "//x", "%00", "%s", "{0}", "{x!r}"),
)
_WORD = re.compile(rb"[\w.+-]+")
_VALUE = re.compile(rb"(?<=: )[^\n]*|(?<=,)[^,\n]*|(?<=- )[^\n]*")


@dataclass(slots=True)
class _Dice:
    """What a change draws from: chance, the words that mean something, and another file."""

    random: Random
    words: Sequence[bytes]
    other: bytes

    def word(self, data: bytes) -> bytes:
        """Return a word: of the format, an oddity, or one that stands in the file already."""
        kind = self.random.randrange(8)
        if kind == 0:
            return self.random.choice(ODDITIES).encode()
        if kind == 1:
            return self.random.choice(NUMBERS + DATES).encode()
        if kind == 2:
            return self.random.choice(SIGNS).encode()
        if kind == 3:
            return b"\xed\xa0\x80" if self.random.randrange(2) else self.random.randbytes(3)
        if kind < 6 and self.words:
            return self.random.choice(self.words)
        near = data[(at := self.at(data)) : at + 400]
        words: list[bytes] = _WORD.findall(near) or [b"x"]
        return self.random.choice(words)

    def at(self, data: bytes) -> int:
        """Return a place in a file."""
        return self.random.randrange(len(data) + 1)

    def span(self, data: bytes, pattern: re.Pattern[bytes]) -> tuple[int, int]:
        """Return the bounds of one of the pieces that a pattern finds near a place."""
        found = pattern.search(data, self.at(data)) or pattern.search(data)
        return found.span() if found else (self.at(data),) * 2


_Change = Callable[[bytes, _Dice], bytes]


def _flip(data: bytes, dice: _Dice) -> bytes:
    at = dice.at(data)
    return data[:at] + bytes([dice.random.randrange(256)]) + data[at + 1 :]


def _insert(data: bytes, dice: _Dice) -> bytes:
    at = dice.at(data)
    return data[:at] + dice.word(data) + data[at:]


def _replace_word(data: bytes, dice: _Dice) -> bytes:
    start, end = dice.span(data, _WORD)
    return data[:start] + dice.word(data) + data[end:]


def _replace_value(data: bytes, dice: _Dice) -> bytes:
    start, end = dice.span(data, _VALUE)
    return data[:start] + dice.word(data) + data[end:]


def _delete(data: bytes, dice: _Dice) -> bytes:
    at = dice.at(data)
    return data[:at] + data[at + dice.random.choice((1, 1, 2, 8, 64, 512)) :]


def _cut(data: bytes, dice: _Dice) -> bytes:
    return data[: dice.at(data)]


def _repeat(data: bytes, dice: _Dice) -> bytes:
    at = dice.at(data)
    piece = data[at : at + dice.random.choice((1, 1, 3, 20, 100))]
    return data[:at] + piece * dice.random.choice((1, 2, 30, 40, 300)) + data[at:]


def _swap_lines(data: bytes, dice: _Dice) -> bytes:
    lines = data.split(b"\n")
    first, second = (dice.random.randrange(len(lines)) for _ in range(2))
    lines[first], lines[second] = lines[second], lines[first]
    return b"\n".join(lines)


def _double_line(data: bytes, dice: _Dice) -> bytes:
    lines = data.split(b"\n")
    at, to = (dice.random.randrange(len(lines)) for _ in range(2))
    return b"\n".join([*lines[:to], lines[at], *lines[to:]])


def _drop_line(data: bytes, dice: _Dice) -> bytes:
    lines = data.split(b"\n")
    del lines[dice.random.randrange(len(lines))]
    return b"\n".join(lines)


def _indent(data: bytes, dice: _Dice) -> bytes:
    lines = data.split(b"\n")
    at = dice.random.randrange(len(lines))
    for number in range(at, min(len(lines), at + dice.random.choice((1, 1, 3)))):
        lead = dice.random.choice((b"  ", b" ", b"\t", b"> ", b"- ", b"    ", b"1. ", b"# "))
        lines[number] = lead * dice.random.choice((1, 1, 1, 2, 40)) + lines[number]
    return b"\n".join(lines)


def _nest(data: bytes, dice: _Dice) -> bytes:
    start, end = dice.span(data, _VALUE)
    opened, closed = dice.random.choice(
        ((b"[", b"]"), (b"{a: ", b"}"), (b"(", b")"), (b"<b>", b"</b>"), (b"*", b"*"), (b'"', b'"'))
    )
    depth = dice.random.choice((1, 2, 31, 33, 200, 1200))
    return data[:start] + opened * depth + data[start:end] + closed * depth + data[end:]


def _splice(data: bytes, dice: _Dice) -> bytes:
    return data[: dice.at(data)] + dice.other[dice.at(dice.other) :]


def _mix_line(data: bytes, dice: _Dice) -> bytes:
    lines = data.split(b"\n")
    lines.insert(dice.random.randrange(len(lines) + 1), dice.random.choice(dice.other.split(b"\n")))
    return b"\n".join(lines)


def _end_lines(data: bytes, dice: _Dice) -> bytes:
    return data.replace(b"\n", dice.random.choice((b"\r\n", b"\r", b"\n\r", b"\n \n")))


def _recode(data: bytes, dice: _Dice) -> bytes:
    kind: str = dice.random.choice(("bom", "bom", "utf-16", "cp1252"))
    if kind == "bom":
        return b"\xef\xbb\xbf" + data
    return data.decode("utf-8", "replace").encode(kind, "replace")


CHANGES: tuple[_Change, ...] = (
    *(_flip, _insert, _insert, _replace_word, _replace_word, _replace_value, _replace_value),
    *(_delete, _delete, _cut, _repeat, _swap_lines, _double_line, _drop_line, _indent, _nest),
    *(_splice, _mix_line, _mix_line, _end_lines, _recode),
)
"""Those that leave most of a file sound stand here twice."""


def change(data: bytes, number: int, target: Target, seeds: Sequence[bytes]) -> bytes:
    """Change a file in the way that a number stands for."""
    random = Random(number)  # noqa: S311  # no secret
    words = [word.encode() for word in target.words]
    dice = _Dice(random, words, random.choice(seeds))
    kind = random.choice(CHANGES)
    if target.is_zip and random.randrange(4):
        changed = change_zip(data, random, lambda part: kind(part, dice))
    else:
        changed = kind(data, dice)
    return changed[:LARGEST_BYTES]


def cook(target: Target, seeds: Sequence[bytes], first: int, numbers: Sequence[int]) -> bytes:
    """Return one of a target's files after a row of changes."""
    data = seeds[first % len(seeds)]
    for number in numbers:
        data = change(data, number, target, seeds)
    return data
