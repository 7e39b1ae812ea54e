"""Whether letters stand as one reads: to the right, then down, none mirrored."""

from collections.abc import Sequence
from itertools import pairwise

from builder.publishing.proof.safety.pdf_letters import Letter

_MOST_GAP = 1.2
"""Ems between two letters of a line: nothing else fits in. Ours."""
_SAME_LINE = 0.4
"""Ems by which a letter of the same line may stand higher or lower. Ours."""


def is_in_order(letters: Sequence[Letter]) -> bool:
    """Tell whether letters, in the order of their text, are read in that order."""
    if any(_is_mirrored(letter) for letter in letters):
        return False
    return all(_follows(first, second) for first, second in pairwise(letters))


def _is_mirrored(letter: Letter) -> bool:
    a, b, c, d = letter.matrix
    return a * d - b * c <= 0


def _follows(first: Letter, second: Letter) -> bool:
    """Tell whether a letter stands to the right of another, or on a line further down."""
    across, up = _find_step(first, second)
    if abs(up) > _SAME_LINE:
        return up < 0
    return 0 < across <= _measure_width(first) + _MOST_GAP


def _measure_width(letter: Letter) -> float:
    """Return how wide a letter is along its line, in ems."""
    a, b, _, _ = letter.matrix
    box = letter.box
    along = (box.right - box.left, box.top - box.bottom)
    return max(abs(a) * along[0], abs(b) * along[1]) / (a * a + b * b)


def _find_step(first: Letter, second: Letter) -> tuple[float, float]:
    """Return how far one goes from letter to letter, in ems of the first, along its line and up."""
    a, b, c, d = first.matrix
    area = a * d - b * c
    x, y = second.x - first.x, second.y - first.y
    return ((d * x - c * y) / area, (a * y - b * x) / area)
