"""A guess at how full a side of a card will be in a setting, before it is laid out.

It adds up lines of words where the style sheet lets them stand, in letters (the size of the type).
Nothing rests on it but the order in which settings are tried: each is laid out and measured.
"""

import re
from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass
from functools import lru_cache

from builder.drawing.lettering import measure_text
from builder.language import language_of
from builder.publishing.cards.face import CardFace
from builder.publishing.cards.setting import Setting
from builder.publishing.views.inline import strip_tags
from builder.publishing.views.lesson_view import LessonName
from builder.sums.paper import MM_PER_INCH, POINTS_PER_INCH, Paper

Guess = Callable[[Setting], float]
"""What share of its page a side fills in a setting."""
MeasureFigure = Callable[[Setting], tuple[float, float]]
"""How wide and high a card's figure is in a setting, in millimetres; zeros where it has none."""

_REGULAR, _ITALIC, _BOLD = 0.963, 0.92, 1.02
"""Widths beside the semibold that is measured (from the shipped fonts)."""
_SPACE = 0.2
_LABEL, _DENSE_LABEL, _FIGURE_LABEL = 6.0, 3.6, 4.0
_CODE, _DENSE_CODE = 4.9, 4.3
_INDENT = 1.3
_LABEL_GAP, _BOX = 0.55, 1.3
_FOLIO = "00000"
"""As wide as the room of a number in a pack."""
_BULLET = " • "
_TEXTS_KEPT = 256
_PIECE = re.compile(r"([^ \n/–-]+[/–-]*|[/–-]+)([ \n]*)")
"""A line may end after a space, a hyphen or a slash, and at no other space than a common one."""


@dataclass(frozen=True, slots=True)
class _Room:
    """What the guesses of a setting share, in letters."""

    width: float
    line: float
    strip: float
    """How high the tempo strip is."""
    small: float
    """The size of small print."""
    figure: tuple[float, float]

    def stack(self, texts: Sequence[str], narrower: float = 0, gap: float = 0) -> float:
        """Return the height of paragraphs."""
        lines = sum(count_lines(text, self.width - narrower) for text in texts)
        return self.line * lines + gap * len(texts)

    def run(self, text: str, label: str = "", boxed: float = 0, face: float = _REGULAR) -> float:
        """Return the height of one paragraph that begins behind its label."""
        start = measure_text(label, _BOLD) + _LABEL_GAP + boxed if label else 0
        return self.line * count_lines(text, self.width, face, start)


def count_lines(text: str, width: float, face: float = _REGULAR, start: float = 0) -> int:
    """Return on how many lines a text stands; the first one begins after ``start`` letters."""
    lines, end = 1, start
    for length, gap in _measure_words(text):
        if end and end + length * face > width:
            lines, end = lines + 1, 0.0
        end += (length + gap) * face
    return lines


@lru_cache(_TEXTS_KEPT)
def _measure_words(text: str) -> tuple[tuple[float, float], ...]:
    """Return the width of each piece that stays on one line, and of the space behind it."""
    return tuple(
        (measure_text(piece.replace("\N{NO-BREAK SPACE}", " "), 1), _SPACE * len(space))
        for piece, space in _PIECE.findall(text)
    )


def guess_front(face: CardFace, paper: Paper, measure_figure: MeasureFigure) -> Guess:
    """Return the guess for the side that a client reads."""
    words = _FrontWords.of(face)

    def guess(setting: Setting) -> float:
        room, height = _find_room(paper, setting, measure_figure(setting))
        parts = _add_dense(face, words, room) if setting.is_dense else _add_roomy(face, words, room)
        return sum(parts) / height

    return guess


def guess_back(face: CardFace, paper: Paper) -> Guess:
    """Return the guess for the side that only a coach reads."""
    notes = tuple(map(strip_tags, face.lesson.coach_notes))

    def guess(setting: Setting) -> float:
        room, height = _find_room(paper, setting, (0, 0))
        return sum(_add_back(face, notes, room, is_dense=setting.is_dense)) / height

    return guess


def _find_room(
    paper: Paper, setting: Setting, figure_mm: tuple[float, float]
) -> tuple[_Room, float]:
    """Return the room of a setting, and how high its page is in letters."""
    letter = setting.points / POINTS_PER_INCH * MM_PER_INCH
    small = max(paper.floor_points / setting.points, 0.85)
    rise = 1.5 if setting.is_dense and any(figure_mm) else 2.5
    room = _Room(
        (paper.width_mm - 2 * paper.margin_mm) / letter,
        1.14 if setting.is_dense else 1.24,
        rise + 2.7,
        small,
        (figure_mm[0] / letter, figure_mm[1] / letter),
    )
    return room, (paper.height_mm - 2 * paper.margin_mm) / letter


@dataclass(frozen=True, slots=True)
class _FrontWords:
    """A front's words without their marks."""

    where: str
    dose: str
    tempo: str
    set_up: tuple[str, ...]
    steps: tuple[str, ...]
    cues: tuple[str, ...]
    faults: tuple[str, ...]
    ready: tuple[str, ...]
    if_hard: tuple[str, ...]
    safety: tuple[tuple[str, tuple[str, ...]], ...]

    @classmethod
    def of(cls, face: CardFace) -> "_FrontWords":
        """Gather the words of a face."""
        lesson, language = face.lesson, language_of(face.language)
        stop = (language.say("Stop if"), lesson.stop_if)
        groups = (
            (group.word, tuple(each.short for each in group.notices)) for group in face.notices
        )
        return cls(
            f"{lesson.strand_title}, {language.say('level {level}', level=lesson.level)}",
            f"{lesson.dose}, {lesson.time}",
            f"{lesson.tempo.text}, {lesson.tempo.rate}" if lesson.tempo else lesson.tempo_text,
            _strip(lesson.set_up),
            _strip(lesson.steps),
            _strip(cue for cue in (lesson.cue_inhale, lesson.cue_exhale) if cue),
            _strip(
                f"{each.fault}: {each.cure}" if each.cure else each.fault
                for each in lesson.watch_for
            ),
            _strip(lesson.ready_when),
            _strip(lesson.if_hard),
            tuple((word, _strip(texts)) for word, texts in (stop, *groups) if texts),
        )


def _strip(texts: Iterable[str]) -> tuple[str, ...]:
    return tuple(map(strip_tags, texts))


def _add_roomy(face: CardFace, words: _FrontWords, room: _Room) -> Iterator[float]:
    """Yield the heights of all parts where labels stand beside their text."""
    code = 0.6 + _CODE if face.qr else 0
    width = room.width - code
    title = 1.12 * count_lines(face.lesson.title, width / 2, _BOLD) + 0.08
    names = room.line * count_lines(words.where, width, 1) + 2 * title
    yield 0.5 + max(names + room.stack([face.position_line], code), _CODE + 0.3 if face.qr else 0)
    yield 0.5 + _find_facts(words, room, _LABEL, _FIGURE_LABEL, has_strip=True)
    yield 0.65 + room.stack(words.set_up, _LABEL, 0.06)
    yield room.stack(words.steps, _LABEL + _INDENT, 0.08)
    if words.cues:
        width = room.width - _LABEL
        yield 0.65 + sum(room.line * count_lines(cue, width, _ITALIC) for cue in words.cues)
    if words.faults:
        yield 0.65 + room.stack(words.faults, _LABEL, 0.06)
    yield room.stack(words.ready, _LABEL + _INDENT, 0.06)
    yield room.stack(words.if_hard, _LABEL, 0.06)
    yield room.stack([name for name in (face.easier, face.harder) if name], _LABEL)
    yield 0.5 + sum(0.16 + room.stack(texts, _LABEL, 0.06) for _, texts in words.safety)
    yield _find_foot(face, room)


def _find_foot(face: CardFace, room: _Room) -> float:
    width = room.width / room.small
    caution = count_lines(face.lesson.caution, width, 1)
    lines = caution + count_lines(f"{face.small_print} {_FOLIO}", width)
    return room.small * (0.64 + 1.2 * lines)


def _add_dense(face: CardFace, words: _FrontWords, room: _Room) -> Iterator[float]:
    """Yield the heights of all parts where they run together."""
    yield 0.55 + room.run(f"{words.where} · {face.position_line} {face.kind}")
    yield 1.7 * (1.12 * count_lines(face.lesson.title, room.width / 1.7, _BOLD) + 0.08)
    has_strip = face.tempo is not None
    yield 0.35 + _find_facts(words, room, _DENSE_LABEL, 0, has_strip=has_strip)
    say = language_of(face.language).say
    yield 0.45 + room.run(" ".join(words.set_up), say("Set up"))
    yield room.stack(words.steps, _INDENT)
    if words.cues:
        labels = f"{say('In-breath')} {say('Out-breath')}"
        yield 0.45 + room.run(" ".join(words.cues), labels, 1.2, _ITALIC)
    if words.faults:
        yield 0.45 + room.run(words.faults[0], say("Watch for")) + room.stack(words.faults[1:])
    if words.ready:
        first, *others = words.ready
        yield room.run(first, say("Ready when"), _BOX) + room.stack(others, _BOX)
    if rest := _join_rest(face, words):
        yield room.run(rest)
    yield 0.55
    for label, texts in words.safety:
        yield 0.1 + room.run(_BULLET.join(texts), label, 0.7)
    yield _find_dense_foot(face, room)


def _join_rest(face: CardFace, words: _FrontWords) -> str:
    """Join what stands in one paragraph with its labels."""
    say = language_of(face.language).say
    rows = {
        say("If it is hard"): _BULLET.join(words.if_hard),
        say("Easier"): face.easier,
        say("Harder"): face.harder,
    }
    return "    ".join(f"{label}  {text}" for label, text in rows.items() if text)


def _find_dense_foot(face: CardFace, room: _Room) -> float:
    width = room.width / room.small - (_DENSE_CODE + 0.5 if face.qr else 0)
    lines = count_lines(f"{face.lesson.caution} {face.small_print} {_FOLIO}", width)
    return room.small * (0.5 + max(1.14 * lines, _DENSE_CODE + 0.25 if face.qr else 0))


def _find_facts(
    words: _FrontWords, room: _Room, label: float, figure_label: float, *, has_strip: bool
) -> float:
    """Return the height of dose and tempo, with the strip under or beside them, or of a figure."""
    width, height = room.figure
    strip = room.strip if has_strip else 0
    if not height:
        share = 0.45 if has_strip else 0
        return max(room.stack((words.dose, words.tempo), share * room.width + label), strip)
    return max(room.stack((words.dose, words.tempo), width + 1 + figure_label) + strip, height)


def _add_back(
    face: CardFace, notes: Sequence[str], room: _Room, *, is_dense: bool
) -> Iterator[float]:
    """Yield the heights of all parts of a back."""
    label = 0.0 if is_dense else _LABEL
    scale = 1.7 if is_dense else 2
    title = count_lines(face.lesson.title, room.width / scale, _BOLD)
    yield 0.5 + room.line + scale * (1.12 * title + 0.08)
    yield 0.4 + room.stack(notes, label + _INDENT, 0.3)
    rows = [
        " · ".join(f"{axis} {rank}" for axis, rank in face.demand),
        *(face.air, face.new_demand),
        *(", ".join(name.title for name in names) for names in _list_neighbours(face)),
    ]
    yield 0.65 + room.stack([row for row in rows if row], label, 0.06)
    if face.lesson.measures:
        yield 0.65 + room.line * len(face.lesson.measures)
    yield _find_foot(face, room)


def _list_neighbours(face: CardFace) -> tuple[tuple[LessonName, ...], ...]:
    return face.lesson.builds_on, face.lesson.builds_into
