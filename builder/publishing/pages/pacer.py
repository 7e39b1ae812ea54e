"""The pacer of a lesson's page: what its script needs, as values in the page."""

import json
from dataclasses import dataclass

from markupsafe import Markup

from builder.course.course import Course
from builder.course.dose import Dose
from builder.course.lesson import Lesson
from builder.course.tempo import Tempo
from builder.drawing.labels import Labels
from builder.drawing.tempo_strip import draw_tempo_strip, find_strip_ends
from builder.language import language_of, mark
from builder.publishing.pages.svg_markup import place_svg
from builder.publishing.views.lesson_view import LessonView, NoticeView
from builder.sums.band import find_band

_STRIP_MM = 60
_FIRST_READ = ("stop", "ask-first")
"""Actions of the notices that are shown again before the first breath."""
WORDS = {
    "in": mark("Breathe in"),
    "hold": mark("Hold softly"),
    "out": mark("Breathe out"),
    "pause": mark("Pause"),
    "lead": mark("Get into position"),
    "rest": mark("Rest"),
    "end": mark("Done"),
    "own": mark("Breathe as it comes"),
    "set": mark("Set {number} of {count}"),
    "breath": mark("breath {number} of {count}"),
    "side1": mark("first side"),
    "side2": mark("second side"),
    "next_side2": mark("Change sides"),
    "next_side1": mark("First side again"),
    "paused": mark("Paused"),
    "paused_hidden": mark("Paused while the page was out of sight. Go on when you are ready."),
    "paused_sound": mark("Paused: the sound was stopped, as by a call. Go on when you are ready."),
    "screen": mark("The screen may go dark here. Set the phone to stay awake."),
    "pause_button": mark("Pause"),
    "go_on": mark("Go on"),
    "set_done": mark("Set done"),
    "skip_rest": mark("Skip the rest"),
    "count": mark("Count {tempo}"),
    "count_then": mark("Count {tempo}, then {next}"),
    "with_where": mark("{word}. {where}"),
    "with_side": mark("{word}, {side}"),
    "saved": mark("Noted on this device."),
    "unsaved": mark("This device won't keep it: it is full, or this is a private window."),
}
"""What the script writes, with gaps that it fills; everything else stands in the page."""


@dataclass(frozen=True, slots=True)
class Count:
    """One count of the band, drawn."""

    text: str
    phases: str
    strip: Markup


@dataclass(frozen=True, slots=True)
class Pacer:
    """What the pacer of one lesson shows and runs."""

    drill: str
    """JSON of the drill as the schedule's script takes it."""
    counts: tuple[Count, ...]
    own: int
    """Which of the counts is the lesson's."""
    ends: tuple[float, float]
    """Where a strip begins and ends, in the units of its drawing."""
    first_read: tuple[NoticeView, ...]
    words: Markup


def make_pacer(course: Course, lesson: Lesson, view: LessonView, labels: Labels) -> Pacer:
    """Return the pacer of a lesson."""
    tempo = lesson.drill.tempo
    band = _find_band(course, lesson)
    language = language_of(course.settings.language)
    words = json.dumps({name: language.say(text) for name, text in WORDS.items()})
    return Pacer(
        drill=json.dumps(_describe_drill(lesson), separators=(",", ":")),
        counts=tuple(_draw_count(count, labels) for count in band),
        own=band.index(tempo) if tempo else 0,
        ends=find_strip_ends(_STRIP_MM),
        first_read=tuple(notice for notice in view.notices if notice.action in _FIRST_READ),
        words=Markup(words.replace("</", "<\\/")),  # noqa: S704  # words of ours
    )


def _find_band(course: Course, lesson: Lesson) -> tuple[Tempo, ...]:
    tempo = lesson.drill.tempo
    if tempo is None:
        return ()
    return find_band(tempo, lesson.ladder, course.settings.limits.cycle_min_seconds)


def _draw_count(tempo: Tempo, labels: Labels) -> Count:
    strip = draw_tempo_strip(tempo, _STRIP_MM, labels=labels)
    return Count(str(tempo), json.dumps(list(tempo.phases)), place_svg(strip))


def _describe_drill(lesson: Lesson) -> dict[str, object]:
    tempo, dose = lesson.drill.tempo, lesson.drill.dose
    described = {"tempo": [] if tempo is None else list(tempo.phases)}
    if isinstance(dose, Dose):
        return described | {
            "sets": dose.sets,
            "breaths": dose.breaths,
            "rest": dose.rest_seconds,
            "sides": dose.sides,
            "minutes": 0,
        }
    return described | {
        "sets": 1,
        "breaths": 0,
        "rest": 0,
        "sides": "together",
        "minutes": dose.minutes,
    }
