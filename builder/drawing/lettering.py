"""How much room words take in the shipped font, and where to break them.

Every text is measured as if it were semibold, which is the wider of the faces used in drawings;
kerning only makes it narrower.
"""

import unicodedata

LINE_HEIGHT = 1.2
"""From one base line to the next, in font sizes."""

# Thousandths of the font size, from the semibold face; a test holds them against the font file.
_ASCII = (
    *(200, 315, 482, 513, 513, 841, 639, 275, 324, 324, 438, 513, 275, 322, 275, 344),
    *(513, 513, 513, 513, 513, 513, 513, 513, 513, 513, 275, 275, 513, 513, 513, 444),
    *(875, 558, 597, 576, 625, 538, 510, 628, 663, 282, 494, 597, 502, 745, 657, 674),
    *(582, 674, 592, 545, 546, 655, 536, 800, 541, 501, 540, 324, 344, 324, 513, 500),
    *(549, 516, 563, 462, 564, 507, 317, 520, 558, 262, 263, 522, 271, 843, 560, 549),
    *(564, 564, 373, 431, 361, 556, 495, 748, 481, 495, 443, 324, 255, 324, 513),
)
_OTHERS = dict(
    zip(
        "–—‘’“”…•×÷→←▲✓°½¼¾©ßæÆœŒøØđĐðÐþÞłŁħĦı",
        (
            *(480, 800, 275, 275, 482, 482, 964, 325, 513, 513, 618, 618, 600, 630, 348, 827, 795),
            *(807, 747, 604, 780, 834, 830, 859, 549, 674, 564, 645, 552, 651, 564, 600, 329, 522),
            *(566, 703, 262),
        ),
        strict=True,
    )
)
_UNKNOWN = 700
_WIDE = 1000
_BREAKS_AFTER = "-–/"


def measure_text(text: str, size: float) -> float:
    """Return the width of a line of text in the units of its size."""
    return sum(_advance(sign) for sign in text) * size / 1000


def wrap_text(text: str, width: float, size: float) -> tuple[str, ...]:
    """Break text into lines that fit a width; a word that is too long is cut."""
    lines = [""]
    for word in text.split():
        for index, piece in enumerate(_pieces(word)):
            lines = _add_piece(lines, piece, " " if index == 0 and lines[-1] else "", width / size)
    return tuple(lines)


def _add_piece(lines: list[str], piece: str, gap: str, width: float) -> list[str]:
    *before, last = lines
    if measure_text(last + gap + piece, 1) <= width:
        return [*before, last + gap + piece]
    started = lines if last else before
    return [*started, *_cut(piece, width)]


def _cut(piece: str, width: float) -> list[str]:
    """Cut a piece into lines of at least one character each."""
    lines = [""]
    for sign in piece:
        if lines[-1] and measure_text(lines[-1] + sign, 1) > width:
            lines.append("")
        lines[-1] += sign
    return lines


def _pieces(word: str) -> list[str]:
    """Split a word after each hyphen, where a line may end."""
    pieces = [""]
    for sign in word:
        pieces[-1] += sign
        if sign in _BREAKS_AFTER:
            pieces.append("")
    return [piece for piece in pieces if piece]


def _advance(sign: str) -> int:
    if " " <= sign <= "~":
        return _ASCII[ord(sign) - 32]
    if sign in _OTHERS:
        return _OTHERS[sign]
    if unicodedata.combining(sign):
        return 0
    if unicodedata.east_asian_width(sign) in "WF":
        return _WIDE
    bare = unicodedata.normalize("NFD", sign)[0]
    return _advance(bare) if bare != sign else _UNKNOWN
