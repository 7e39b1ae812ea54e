"""The measures of a trend chart: where days and values stand, and what the legend says."""

from dataclasses import dataclass
from datetime import date

from builder.drawing.lettering import measure_text, wrap_text
from builder.language import Language

LEGEND_MARK = 2.2
"""How wide the marks of the legend are with their gap, in letters."""
LEGEND_GAP = 1.0
ROW = 1.25
"""From one line of words to the next, in letters."""
_LOW_MARGIN = 0.15
"""Room above and under what is drawn, as a part of its height."""
_LEAST_SPAN = 1.0


@dataclass(frozen=True, slots=True)
class TrendLine:
    """One row of readings, oldest first."""

    points: tuple[tuple[date, float], ...]
    label: str = ""
    """Which side it is; empty where there is one line only."""
    scatter: float | None = None
    """How far around the first reading a number may lie by chance; None where no rule says."""


@dataclass(frozen=True, slots=True)
class TrendRoom:
    """The size of a chart in millimetres."""

    width_mm: float = 80
    plot_mm: float = 22
    letter_mm: float = 3.2


@dataclass(frozen=True, slots=True)
class Entry:
    """One piece of the legend."""

    words: str
    line: int | None = None
    """The number of the line that it tells of; None for the band."""
    has_mark: bool = True


@dataclass(frozen=True)
class TrendSheet:
    """Where days and values stand, in millimetres."""

    room: TrendRoom
    lines: tuple[TrendLine, ...]
    unit: str
    language: Language

    @property
    def letter(self) -> float:
        """Return the size of its letters."""
        return self.room.letter_mm

    @property
    def has_scatter(self) -> bool:
        """Tell whether there is a band to explain."""
        return any(line.scatter for line in self.lines)

    @property
    def legend(self) -> tuple[Entry, ...]:
        """Return what stands over the plot; words too long for its width go on underneath."""
        names = [Entry(line.label, index) for index, line in enumerate(self.lines) if line.label]
        if not self.has_scatter:
            return tuple(names)
        room = self.room.width_mm - LEGEND_MARK * self.letter
        said = self.language.say("usual scatter of the first number")
        first, *more = wrap_text(said, room, self.letter)
        return (*names, Entry(first), *(Entry(words, has_mark=False) for words in more))

    @property
    def rows(self) -> tuple[tuple[Entry, ...], ...]:
        """Return the legend in rows that fit the width."""
        rows: list[list[Entry]] = []
        used = self.room.width_mm
        for entry in self.legend:
            width = LEGEND_MARK * self.letter + measure_text(entry.words, self.letter)
            if used + width > self.room.width_mm or not entry.has_mark:
                rows, used = [*rows, []], 0.0
            rows[-1].append(entry)
            used += width + LEGEND_GAP * self.letter
        return tuple(map(tuple, rows))

    @property
    def top(self) -> float:
        """Return where the plot begins."""
        return len(self.rows) * ROW * self.letter + 0.3 * self.letter

    @property
    def bottom(self) -> float:
        """Return where the plot ends."""
        return self.top + self.room.plot_mm

    @property
    def height(self) -> float:
        """Return the height of the whole drawing."""
        return self.bottom + 1.5 * self.letter

    @property
    def left(self) -> float:
        """Return where the plot begins, beside the widest number that stands there."""
        words = [self.write(line.points[0][1]) for line in self.lines]
        return max(measure_text(word, self.letter) for word in words) + 0.4 * self.letter

    @property
    def right(self) -> float:
        """Return where the plot ends, beside the newest number."""
        last = [self.write(line.points[-1][1]) for line in self.lines]
        widest = max(measure_text(word, self.letter) for word in last)
        return self.room.width_mm - widest - 0.8 * self.letter

    @property
    def ends(self) -> tuple[float, float]:
        """Return the lowest and the highest of all that is drawn."""
        values = [value for line in self.lines for _, value in line.points]
        for line in self.lines:
            first, scatter = line.points[0][1], line.scatter or 0
            values += [first - scatter, first + scatter]
        return min(values), max(values)

    def write(self, value: float) -> str:
        """Write a number with its unit."""
        return f"{self.language.number(value)} {self.unit}"

    def x(self, day: date) -> float:
        """Return how far to the right a day stands."""
        days = [each for line in self.lines for each, _ in line.points]
        first, last = min(days), max(days)
        share = (day - first) / (last - first) if last > first else 0.5
        inset = 0.6 * self.letter
        return self.left + inset + share * (self.right - self.left - 2 * inset)

    def y(self, value: float) -> float:
        """Return how far down a value stands."""
        low, high = self.ends
        span = max(high - low, _LEAST_SPAN)
        margin = _LOW_MARGIN * self.room.plot_mm
        middle = (low + high) / 2
        inner = self.room.plot_mm - 2 * margin
        return self.top + margin + inner * (0.5 - (value - middle) / span)
