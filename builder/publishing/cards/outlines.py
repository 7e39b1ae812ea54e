"""Outlines: the ``d`` of a path as the operators that build it in a PDF (ISO 32000-1, 8.5.2).

Known are the steps that drawings of ours are made of: M, L, H, V, C, Z, m, h, and arcs of circles.
"""

import re
from collections.abc import Callable, Iterator
from functools import lru_cache
from math import atan2, ceil, cos, hypot, pi, sin, sqrt, tan

_TOKEN = re.compile(r"[A-Za-z]|[-+]?(?:\d+\.?\d*|\.\d+)")
_WHOLE = re.compile(r"[MLHVCAZmh0-9 .-]*")
_COUNTS = {"M": 2, "L": 2, "H": 1, "V": 1, "C": 6, "A": 7, "Z": 0, "m": 2, "h": 1}
_MOST_KEPT = 256
"""An outline is drawn as a line and as a fill, and a code is the same at every size."""
_DECIMALS = 3

Point = tuple[float, float]
_Drawn = tuple[list[bytes], Point]


@lru_cache(_MOST_KEPT)
def draw_outline(steps: str) -> bytes | None:
    """Return the operators of a path; None where it has steps that aren't known here."""
    if not _WHOLE.fullmatch(steps):
        return None
    written: list[bytes] = []
    here = start = (0.0, 0.0)
    for letter, values in _part(steps):
        if letter == "A" and (values[0] != values[1] or values[2]):
            return None
        if letter == "Z":
            written.append(b"h")
            here = start
            continue
        pieces, here = _DRAW[letter](here, values)
        written += pieces
        start = here if letter in "Mm" else start
    return b"\n".join(written)


def _part(steps: str) -> Iterator[tuple[str, list[float]]]:
    """Yield each step's letter and numbers; numbers without a letter repeat the one before."""
    tokens = _TOKEN.findall(steps)
    index, letter = 0, "M"
    while index < len(tokens):
        if tokens[index] in _COUNTS:
            letter = tokens[index]
            index += 1
        end = index + _COUNTS[letter]
        yield letter, [float(token) for token in tokens[index:end]]
        index = end
        letter = {"M": "L"}.get(letter, letter)


def _move(here: Point, values: list[float]) -> _Drawn:
    del here
    x, y = values
    return [_write("m", x, y)], (x, y)


def _move_on(here: Point, values: list[float]) -> _Drawn:
    return _move(here, [here[0] + values[0], here[1] + values[1]])


def _line(here: Point, values: list[float]) -> _Drawn:
    del here
    x, y = values
    return [_write("l", x, y)], (x, y)


def _line_across(here: Point, values: list[float]) -> _Drawn:
    return _line(here, [values[0], here[1]])


def _line_on(here: Point, values: list[float]) -> _Drawn:
    return _line(here, [here[0] + values[0], here[1]])


def _line_down(here: Point, values: list[float]) -> _Drawn:
    return _line(here, [here[0], values[0]])


def _curve(here: Point, values: list[float]) -> _Drawn:
    del here
    return [_write("c", *values)], (values[4], values[5])


def _arc(here: Point, values: list[float]) -> _Drawn:
    """Draw an arc of a circle by curves of at most a quarter (SVG 1.1, F.6, for equal radii)."""
    radius, _, _, is_large, is_onward, x, y = values
    dx, dy = (x - here[0]) / 2, (y - here[1]) / 2
    half = hypot(dx, dy)
    if not half:
        return [], here
    if not radius:
        return _line(here, [x, y])
    radius = max(radius, half)
    rise = sqrt(max(radius**2 - half**2, 0)) / half * (-1 if is_large == is_onward else 1)
    middle = (here[0] + dx - rise * dy, here[1] + dy + rise * dx)
    first = atan2(here[1] - middle[1], here[0] - middle[0])
    turn = atan2(y - middle[1], x - middle[0]) - first
    if is_onward and turn < 0:
        turn += 2 * pi
    elif not is_onward and turn > 0:
        turn -= 2 * pi
    return list(_round(middle, radius, first, turn)), (x, y)


def _round(middle: Point, radius: float, first: float, turn: float) -> Iterator[bytes]:
    """Yield curves that go round a point, as near to a circle as four curves can be."""
    count = max(1, ceil(abs(turn) / (pi / 2) - 1e-9))
    step = turn / count
    reach = 4 / 3 * tan(step / 4) * radius
    for index in range(count):
        a, b = first + index * step, first + (index + 1) * step
        ax, ay = middle[0] + radius * cos(a), middle[1] + radius * sin(a)
        bx, by = middle[0] + radius * cos(b), middle[1] + radius * sin(b)
        yield _write(
            "c",
            *(ax - reach * sin(a), ay + reach * cos(a)),
            *(bx + reach * sin(b), by - reach * cos(b)),
            *(bx, by),
        )


def _write(operator: str, *values: float) -> bytes:
    return f"{' '.join(map(write_number, values))} {operator}".encode()


def write_number(value: float) -> str:
    """Write a number without an exponent (ISO 32000-1, 7.3.3)."""
    whole = round(value)
    if value == whole:
        return str(whole)
    return f"{value:.{_DECIMALS}f}".rstrip("0").rstrip(".")


_DRAW: dict[str, Callable[[Point, list[float]], _Drawn]] = {
    "M": _move,
    "L": _line,
    "H": _line_across,
    "V": _line_down,
    "C": _curve,
    "A": _arc,
    "m": _move_on,
    "h": _line_on,
}
