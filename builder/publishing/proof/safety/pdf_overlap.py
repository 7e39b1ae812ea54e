"""Letters that are set over one another."""

from collections.abc import Iterator, Sequence

from builder.publishing.proof.safety.pdf_letters import Letter

_LEAST_SHARED = 0.1
"""Share of the smaller letter's box that two letters have in common to be looked at. Ours."""
_LEAST_STEP = 0.5
"""How far a letter stands from the one before it, in widths of the narrower: slanted letters
share room with their neighbours, but each begins where it should. Ours."""
_NEXT = 3
"""A letter that follows another has at most so much the higher number: "ffi" is one of three."""


def find_overset(letters: Sequence[Letter]) -> frozenset[Letter]:
    """Return the letters that stand on others."""
    return frozenset(letter for pair in _list_pairs(letters) for letter in pair)


def _list_pairs(letters: Sequence[Letter]) -> Iterator[tuple[Letter, Letter]]:
    ordered = sorted(letters, key=lambda letter: (letter.box.left, letter.at))
    for place, first in enumerate(ordered):
        for second in ordered[place + 1 :]:
            if second.box.left > first.box.right:
                break
            if _stand_together(first, second):
                yield first, second


def _stand_together(first: Letter, second: Letter) -> bool:
    if first.box.bottom > second.box.top or second.box.bottom > first.box.top:
        return False
    least = min(first.box.area, second.box.area)
    if first.box.meet(second.box).area <= _LEAST_SHARED * least:
        return False
    if abs(second.at - first.at) > _NEXT:
        return True
    step = max(abs(second.x - first.x), abs(second.y - first.y))
    return step < _LEAST_STEP * min(_measure(first), _measure(second))


def _measure(letter: Letter) -> float:
    return min(letter.box.right - letter.box.left, letter.box.top - letter.box.bottom)
