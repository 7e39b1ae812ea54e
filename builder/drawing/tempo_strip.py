"""The tempo strip: one breath from left to right, as wide as it is long."""

from collections.abc import Sequence
from dataclasses import dataclass

from builder.course.tempo import Step, Tempo
from builder.drawing.labels import ENGLISH, Labels, write_tempo
from builder.drawing.lettering import LINE_HEIGHT, measure_text
from builder.drawing.svg import Frame, Svg, element, finish, path
from builder.language import mark

_TOLD = {
    Step.IN: mark("breathe in for {seconds}"),
    Step.HOLD: mark("hold for {seconds}"),
    Step.OUT: mark("breathe out for {seconds}"),
    Step.PAUSE: mark("pause for {seconds}"),
}
_OWN_PACE_SWELLS = 3
_CLOSEST_TICKS_MM = 0.7


@dataclass(frozen=True, slots=True)
class _Sheet:
    """Measures of a strip in millimetres, most of them from the size of its letters."""

    width: float
    least_letter: float
    rise: float
    """How high a breath rises, in letters."""

    @property
    def letter(self) -> float:
        """Return the font size: the least on a card, more on a wall."""
        return min(max(0.03 * self.width, self.least_letter), 7.0)

    @property
    def left(self) -> float:
        return 0.4 * self.letter

    @property
    def length(self) -> float:
        """Return how much of the width one breath takes."""
        return self.width - 2 * self.left

    @property
    def crest(self) -> float:
        return 0.4 * self.letter

    @property
    def trough(self) -> float:
        return self.crest + self.rise * self.letter

    @property
    def ground(self) -> float:
        return self.trough + 0.6 * self.letter

    def line(self, index: int) -> float:
        """Return the base line of a line of words under the ground."""
        return self.ground + (1.2 + index * LINE_HEIGHT) * self.letter

    def height(self, lines: int) -> float:
        """Return the whole height with so many lines of words."""
        return self.line(lines - 1) + 0.5 * self.letter


@dataclass(frozen=True, slots=True)
class _Phase:
    """One phase that takes time, with its place on the strip."""

    word: str
    number: str
    """Its seconds as the language writes them."""
    seconds: float
    start: float
    end: float
    from_y: float
    to_y: float


def draw_tempo_strip(
    tempo: Tempo | None,
    width_mm: float = 60,
    least_letter_mm: float = 2.83,
    rise: float = 2.5,
    labels: Labels = ENGLISH,
) -> str:
    """Draw one breath at a tempo, or a calm sign where people breathe at their own pace.

    Letters keep their printed size at any ``width_mm``; on a page that scales the drawing, 60
    reads on a phone. The least letter is 8 points unless another is asked for.
    ``rise`` is the height of a breath in letters.
    """
    sheet = _Sheet(width_mm, least_letter_mm, rise)
    return _draw_own_pace(sheet, labels) if tempo is None else _draw_counted(tempo, sheet, labels)


def find_strip_ends(width_mm: float, least_letter_mm: float = 2.83) -> tuple[float, float]:
    """Return where a strip's breath begins and ends, in the units of the drawing."""
    sheet = _Sheet(width_mm, least_letter_mm, 0)
    return sheet.left, sheet.width - sheet.left


def _draw_counted(tempo: Tempo, sheet: _Sheet, labels: Labels) -> str:
    phases = _place_phases(tempo, sheet, labels)
    rows = _letter_phases(phases, sheet)
    language = labels.language
    parts = [
        language.say(_TOLD[step], seconds=language.number(seconds)) for step, seconds in tempo.steps
    ]
    frame = Frame(
        "tempo-strip",
        sheet.width,
        sheet.height(len(rows)),
        language.say(
            "Tempo {tempo}: {phases}",
            tempo=write_tempo(tempo, language),
            phases=", ".join(_one_line(phase) for phase in phases),
        ),
        language.say(
            "In seconds: {phases}. A line rises on the in-breath, falls on the out-breath "
            "and stays level on a hold or pause; its length shows the time.",
            phases=", ".join(parts),
        ),
    )
    level = [step for phase in phases for step in _steps(phase)]
    start = ("M", sheet.left, sheet.trough)
    floor = ("V", sheet.ground, "H", sheet.left, "Z")
    return finish(
        frame,
        element("path", d=path(*start, *level, *floor), fill_opacity=0.14),
        element("path", d=_marks(tempo, phases, sheet), fill="none", **_pen(0.05, sheet)),
        element("path", d=path(*start, *level), fill="none", **_pen(0.17, sheet)),
        *(label for row in rows for label in row),
    )


def _draw_own_pace(sheet: _Sheet, labels: Labels) -> str:
    swell = sheet.length / _OWN_PACE_SWELLS
    steps: list[str | float] = ["M", sheet.left, sheet.trough]
    for index in range(_OWN_PACE_SWELLS):
        start = sheet.left + index * swell
        middle, end = start + swell / 2, start + swell
        steps += _curve(start, middle, sheet.trough, sheet.crest)
        steps += _curve(middle, end, sheet.crest, sheet.trough)
    frame = Frame(
        "tempo-strip",
        sheet.width,
        sheet.height(1),
        labels.language.say("Tempo: {pace}", pace=labels.own_pace),
        labels.language.say("No count. Breathe in and out as it comes."),
    )
    words = _label(labels.own_pace, sheet.width / 2, sheet.line(0), sheet)
    line = element("path", d=path(*steps), fill="none", **_pen(0.12, sheet))
    return finish(frame, line, words)


def _place_phases(tempo: Tempo, sheet: _Sheet, labels: Labels) -> tuple[_Phase, ...]:
    """Give each phase that takes time its share of the length."""
    scale = sheet.length / tempo.cycle_seconds
    levels = {Step.IN: sheet.crest, Step.OUT: sheet.trough}
    words = labels.steps
    start, level = sheet.left, sheet.trough
    phases = []
    for step, seconds in tempo.steps:
        end, after = start + seconds * scale, levels.get(step, level)
        number = labels.language.number(seconds)
        phases.append(_Phase(words[step], number, seconds, start, end, level, after))
        start, level = end, after
    return tuple(phases)


def _steps(phase: _Phase) -> list[str | float]:
    if phase.from_y == phase.to_y:
        return ["H", phase.end]
    return _curve(phase.start, phase.end, phase.from_y, phase.to_y)


def _curve(start: float, end: float, from_y: float, to_y: float) -> list[str | float]:
    """Go softly from one level to another."""
    bend = 0.32 * (end - start)
    return ["C", start + bend, from_y, end - bend, to_y, end, to_y]


def _marks(tempo: Tempo, phases: Sequence[_Phase], sheet: _Sheet) -> str:
    """Draw the ground, a line where phases meet, and a tick for every second."""
    steps: list[str | float] = ["M", sheet.left, sheet.ground, "h", sheet.length]
    for phase in phases[:-1]:
        steps += ["M", phase.end, phase.to_y, "V", sheet.ground]
    gap = sheet.length / tempo.cycle_seconds
    if gap >= _CLOSEST_TICKS_MM:
        for phase in phases:
            for second in range(1, int(phase.seconds) + 1):
                steps += ["M", phase.start + second * gap, sheet.ground, "v", -0.28 * sheet.letter]
    return path(*steps)


def _letter_phases(phases: Sequence[_Phase], sheet: _Sheet) -> tuple[tuple[Svg, ...], ...]:
    """Write word and seconds under each phase: in one line if they fit there, else in two."""
    centres = [(phase.start + phase.end) / 2 for phase in phases]
    whole = [_one_line(phase) for phase in phases]
    spread = _spread(centres, whole, sheet)
    nearest = max(abs(now - wished) for now, wished in zip(spread, centres, strict=True))
    fits = spread[0] >= measure_text(whole[0], sheet.letter) / 2
    if fits and nearest <= sheet.letter:
        return (_row(whole, spread, 0, sheet),)
    words = [phase.word for phase in phases]
    numbers = [phase.number for phase in phases]
    wider = [
        max(pair, key=lambda text: measure_text(text, 1))
        for pair in zip(words, numbers, strict=True)
    ]
    spread = _spread(centres, wider, sheet)
    return (_row(numbers, spread, 0, sheet), _row(words, spread, 1, sheet))


def _row(
    texts: Sequence[str], centres: Sequence[float], line: int, sheet: _Sheet
) -> tuple[Svg, ...]:
    pairs = zip(texts, centres, strict=True)
    return tuple(_label(text, centre, sheet.line(line), sheet) for text, centre in pairs)


def _spread(centres: Sequence[float], texts: Sequence[str], sheet: _Sheet) -> list[float]:
    """Push labels apart so that none covers another or leaves the sheet."""
    halves = [measure_text(text, sheet.letter) / 2 for text in texts]
    gap = 0.45 * sheet.letter
    placed: list[float] = []
    edge = -gap
    for centre, half in zip(centres, halves, strict=True):
        placed.append(max(centre, edge + gap + half))
        edge = placed[-1] + half
    edge = sheet.width + gap
    for index in reversed(range(len(placed))):
        placed[index] = min(placed[index], edge - gap - halves[index])
        edge = placed[index] - halves[index]
    return placed


def _one_line(phase: _Phase) -> str:
    return f"{phase.word} {phase.number}"


def _label(text: str, x: float, y: float, sheet: _Sheet) -> Svg:
    return element(
        "text", text, x=x, y=y, font_size=sheet.letter, font_weight=600, text_anchor="middle"
    )


def _pen(share: float, sheet: _Sheet) -> dict[str, str | float]:
    """Return the attributes of a line whose width is a share of the letters' size."""
    return {
        "stroke": "currentColor",
        "stroke_width": share * sheet.letter,
        "stroke_linecap": "round",
        "stroke_linejoin": "round",
    }
