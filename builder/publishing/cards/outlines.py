"""Outlines: the ``d`` of a path as the operators that build it in a PDF (ISO 32000-1, 8.5.2).

Known are the steps that drawings of ours are made of: M, L, H, V, C, Z, m, h, and arcs of circles.
"""

import re
from collections.abc import Callable, Iterator
from functools import lru_cache
from math import atan2, ceil, cos, hypot, pi, sin, sqrt, tan

_WHOLE = re.compile(r"(?:[MLHVCAZmh]|(?<=[A-Za-z]) ?-?[0-9.]+| -?[0-9.]+| (?=[A-Z]))*")
_STEP = re.compile(r"([A-Za-z])([^A-Za-z]*)")
_STRAIGHT = {"M": (2, "m"), "L": (2, "l"), "C": (6, "c")}
"""Steps whose numbers stay as they are: how many there are, and the operator they belong to."""
_MOST_KEPT = 256
"""An outline is drawn as a line and as a fill, and a code is the same at every size."""
_DECIMALS = 3

Point = tuple[float, float]
_Drawn = tuple[str, Point]


@lru_cache(_MOST_KEPT)
def draw_outline(steps: str) -> bytes | None:
    """Return the operators of a path; None where it has steps that aren't known here."""
    if not _WHOLE.fullmatch(steps):
        return None
    written: list[str] = []
    here = start = (0.0, 0.0)
    for letter, told in _STEP.findall(steps):
        numbers = told.split()
        if letter == "Z":
            written.append("h")
            here = start
        elif letter in _STRAIGHT:
            count, operator = _STRAIGHT[letter]
            if len(numbers) != count:
                return None
            written.append(f"{told} {operator}")
            here = (float(numbers[-2]), float(numbers[-1]))
        else:
            drawn = _DRAW[letter](here, *map(float, numbers))
            if drawn is None:
                return None
            written.append(drawn[0])
            here = drawn[1]
        start = here if letter in "Mm" else start
    return "\n".join(written).encode()


def _move_on(here: Point, *by: float) -> _Drawn | None:
    if len(by) != 2:
        return None
    to = (here[0] + by[0], here[1] + by[1])
    return _write("m", *to), to


def _line(to: Point) -> _Drawn:
    return _write("l", *to), to


def _line_across(here: Point, *xs: float) -> _Drawn | None:
    return _line((xs[0], here[1])) if len(xs) == 1 else None


def _line_on(here: Point, *by: float) -> _Drawn | None:
    return _line((here[0] + by[0], here[1])) if len(by) == 1 else None


def _line_down(here: Point, *ys: float) -> _Drawn | None:
    return _line((here[0], ys[0])) if len(ys) == 1 else None


def _arc(here: Point, *values: float) -> _Drawn | None:
    """Draw an arc of a circle by curves of at most a quarter (SVG 1.1, F.6, for equal radii)."""
    if len(values) != 7 or values[0] != values[1]:
        return None
    radius, _, _, is_large, is_onward, x, y = values
    dx, dy = (x - here[0]) / 2, (y - here[1]) / 2
    half = hypot(dx, dy)
    if not half:
        return "", here
    if not radius:
        return _line((x, y))
    radius = max(radius, half)
    rise = sqrt(radius**2 - half**2) / half * (-1 if is_large == is_onward else 1)
    middle = (here[0] + dx - rise * dy, here[1] + dy + rise * dx)
    first = atan2(here[1] - middle[1], here[0] - middle[0])
    turn = atan2(y - middle[1], x - middle[0]) - first
    if is_onward and turn < 0:
        turn += 2 * pi
    elif not is_onward and turn > 0:
        turn -= 2 * pi
    return "\n".join(_round(middle, radius, first, turn)), (x, y)


def _round(middle: Point, radius: float, first: float, turn: float) -> Iterator[str]:
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


def _write(operator: str, *values: float) -> str:
    return f"{' '.join(map(write_number, values))} {operator}"


def write_number(value: float) -> str:
    """Write a number without an exponent (ISO 32000-1, 7.3.3)."""
    return str(int(value)) if value == int(value) else f"{value:.{_DECIMALS}f}".rstrip("0")


_DRAW: dict[str, Callable[..., _Drawn | None]] = {
    "H": _line_across,
    "V": _line_down,
    "A": _arc,
    "m": _move_on,
    "h": _line_on,
}
