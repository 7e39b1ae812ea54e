"""The trend chart: one measure over days, the usual scatter of its first reading as a band.

It shows numbers and judges nobody. Two sides differ by marker and dash, so that it reads in black
and white.
"""

from collections.abc import Iterator, Sequence

from builder.drawing.lettering import measure_text, wrap_text
from builder.drawing.svg import Frame, Svg, element, finish, path
from builder.drawing.trend_scale import (
    LEGEND_GAP,
    LEGEND_MARK,
    ROW,
    Entry,
    TrendLine,
    TrendRoom,
    TrendSheet,
)
from builder.language import Language

_MARK = 0.28
"""Half the size of a marker, in letters."""
_PEN = 0.11
_DASHES = ("", "0.6 0.45")
"""Of the first and the second line, in letters."""


def draw_trend_chart(
    title: str,
    unit: str,
    lines: Sequence[TrendLine],
    language: Language,
    room: TrendRoom = TrendRoom(),  # noqa: B008  # a frozen value
) -> str:
    """Draw up to two lines of one measure; words in place of a chart where nothing was read."""
    drawn = [line for line in lines if line.points][: len(_DASHES)]
    sheet = TrendSheet(room, tuple(drawn), unit, language)
    said = _describe(sheet) if drawn else language.say("Nothing measured yet.")
    parts = list(_draw(sheet)) if drawn else list(_draw_empty(sheet, said))
    frame = Frame(
        "trend-chart",
        room.width_mm,
        sheet.height,
        language.say("Trend: {measure}", measure=title),
        said,
    )
    return finish(frame, *parts)


def _draw_empty(sheet: TrendSheet, said: str) -> Iterator[Svg]:
    for row, line in enumerate(wrap_text(said, sheet.room.width_mm, sheet.letter)):
        yield _write(line, 0, (row + 1) * ROW * sheet.letter, sheet)


def _draw(sheet: TrendSheet) -> Iterator[Svg]:
    yield from _draw_bands(sheet)
    yield element(
        "path",
        d=path("M", sheet.left, sheet.top, "V", sheet.bottom, "H", sheet.right),
        fill="none",
        stroke="currentColor",
        stroke_width=0.04 * sheet.letter,
    )
    for index, line in enumerate(sheet.lines):
        yield from _draw_line(sheet, line, index)
    yield from _draw_legend(sheet)
    yield from _write_values(sheet)
    yield from _write_days(sheet)


def _draw_bands(sheet: TrendSheet) -> Iterator[Svg]:
    for index, line in enumerate(sheet.lines):
        if line.scatter:
            first = line.points[0][1]
            top, bottom = sheet.y(first + line.scatter), sheet.y(first - line.scatter)
            box = {"x": sheet.left, "width": sheet.right - sheet.left}
            yield element("rect", y=top, height=bottom - top, fill_opacity=0.13, **box)
            edges = path("M", sheet.left, top, "H", sheet.right)
            edges += " " + path("M", sheet.left, bottom, "H", sheet.right)
            yield element("path", d=edges, fill="none", **_pen(0.04, index, sheet))


def _draw_line(sheet: TrendSheet, line: TrendLine, index: int) -> Iterator[Svg]:
    places = [(sheet.x(day), sheet.y(value)) for day, value in line.points]
    steps: list[str | float] = []
    for number, (x, y) in enumerate(places):
        steps += ["L" if number else "M", x, y]
    if len(places) > 1:
        yield element("path", d=path(*steps), fill="none", **_pen(_PEN, index, sheet))
    for x, y in places:
        yield _draw_mark(x, y, index, sheet)


def _draw_mark(x: float, y: float, index: int, sheet: TrendSheet) -> Svg:
    """Draw a full dot for the first line and a white square for the second."""
    half = _MARK * sheet.letter
    if index == 0:
        return element("circle", cx=x, cy=y, r=half)
    return element(
        "rect",
        x=x - half,
        y=y - half,
        width=2 * half,
        height=2 * half,
        fill="#ffffff",
        stroke="currentColor",
        stroke_width=0.1 * sheet.letter,
    )


def _draw_legend(sheet: TrendSheet) -> Iterator[Svg]:
    letter = sheet.letter
    for row, entries in enumerate(sheet.rows):
        x, base = 0.0, (row * ROW + 1.0) * letter
        for entry in entries:
            yield from _draw_sample(entry, x, base - 0.32 * letter, sheet)
            x += LEGEND_MARK * letter
            yield _write(entry.words, x, base, sheet)
            x += measure_text(entry.words, letter) + LEGEND_GAP * letter


def _draw_sample(entry: Entry, x: float, middle: float, sheet: TrendSheet) -> Iterator[Svg]:
    """Draw what a piece of the legend tells of."""
    letter = sheet.letter
    width = 0.8 * LEGEND_MARK * letter
    if entry.line is not None:
        line = path("M", x, middle, "h", width)
        yield element("path", d=line, fill="none", **_pen(_PEN, entry.line, sheet))
        yield _draw_mark(x + width / 2, middle, entry.line, sheet)
    elif entry.has_mark:
        box = {"y": middle - 0.4 * letter, "height": 0.8 * letter}
        yield element("rect", x=x, width=width, fill_opacity=0.13, **box)


def _write_values(sheet: TrendSheet) -> Iterator[Svg]:
    """Write the first numbers at the left and the newest at the right, none over another."""
    first = dict.fromkeys(line.points[0][1] for line in sheet.lines)
    newest = dict.fromkeys(line.points[-1][1] for line in sheet.lines)
    for value, y in _spread(sorted(first), sheet):
        yield _write(sheet.write(value), sheet.left - 0.4 * sheet.letter, y, sheet, anchor="end")
    if any(len(line.points) > 1 for line in sheet.lines):
        for value, y in _spread(sorted(newest), sheet):
            yield _write(sheet.write(value), sheet.right + 0.4 * sheet.letter, y, sheet)


def _spread(values: Sequence[float], sheet: TrendSheet) -> Iterator[tuple[float, float]]:
    """Yield values, lowest first, with base lines that lie a row apart."""
    above = sheet.bottom + sheet.letter
    for value in values:
        base = min(sheet.y(value) + 0.35 * sheet.letter, above - ROW * sheet.letter)
        yield value, base
        above = base


def _write_days(sheet: TrendSheet) -> Iterator[Svg]:
    days = sorted({day for line in sheet.lines for day, _ in line.points})
    base = sheet.bottom + 1.15 * sheet.letter
    if len(days) == 1:
        day = sheet.language.short_date(days[0])
        yield _write(day, sheet.x(days[0]), base, sheet, anchor="middle")
        return
    first, last = (sheet.language.short_date(day) for day in (days[0], days[-1]))
    yield _write(first, sheet.left, base, sheet)
    yield _write(last, sheet.right, base, sheet, anchor="end")


def _describe(sheet: TrendSheet) -> str:
    language = sheet.language
    said = []
    for line in sheet.lines:
        numbers = [
            language.say("{day}: {value}", day=language.date(day), value=sheet.write(value))
            for day, value in line.points
        ]
        label = f"{line.label}: " if line.label else ""
        said.append(f"{label}{'; '.join(numbers)}.")
    if sheet.has_scatter:
        said.append(
            language.say("The band shows how far the first number may move by chance alone.")
        )
    return " ".join(said)


def _pen(share: float, index: int, sheet: TrendSheet) -> dict[str, str | float]:
    pen: dict[str, str | float] = {
        "stroke": "currentColor",
        "stroke_width": share * sheet.letter,
        "stroke_linejoin": "round",
    }
    if _DASHES[index]:
        dashes = (float(part) * sheet.letter for part in _DASHES[index].split())
        pen["stroke_dasharray"] = " ".join(f"{dash:.2f}" for dash in dashes)
    return pen


def _write(text: str, x: float, y: float, sheet: TrendSheet, anchor: str = "start") -> Svg:
    return element("text", text, x=x, y=y, font_size=sheet.letter, text_anchor=anchor)
