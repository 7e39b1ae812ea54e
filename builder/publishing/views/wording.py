"""Values of a drill as words that are ready to print."""

from collections.abc import Sequence
from datetime import date

from builder.course.dose import Dose, Sides, TimedDose
from builder.course.notice import Action, Review
from builder.course.tempo import Step, Tempo, format_seconds
from builder.course.vocabulary import Position, PropUse
from builder.sums.timing import DrillTime, rate_per_minute

OWN_PACE = "at your own pace"
ACTION_WORDS = {
    Action.STOP: "Stop",
    Action.ASK_FIRST: "Ask first",
    Action.ADAPT: "Adapt",
    Action.NOTE: "Note",
}
_BREATHE = {Step.IN: "breathe in", Step.OUT: "breathe out"}
_SIDES = {
    Sides.TOGETHER: "",
    Sides.EACH: " on each side",
    Sides.ALTERNATE: ", both sides in turn",
}
_MONTHS = (
    *("January", "February", "March", "April", "May", "June", "July"),
    *("August", "September", "October", "November", "December"),
)


def word_list(words: Sequence[str], joint: str = "and") -> str:
    """Join names as a sentence does: a, b and c."""
    if len(words) < 2:
        return "".join(words)
    return f"{', '.join(words[:-1])} {joint} {words[-1]}"


def word_count(count: int, noun: str) -> str:
    """Write a number with its noun: 1 set, 2 sets."""
    return f"{count} {noun}" if count == 1 else f"{count} {noun}s"


def word_date(day: date) -> str:
    """Write a date as 1 October 2026, whatever the machine's language."""
    return f"{day.day} {_MONTHS[day.month - 1]} {day.year}"


def word_position(position: Position) -> str:
    """Say a position plainly, with the trade's word in brackets where it is another one."""
    if position.term in ("", position.title):
        return position.title
    return f"{position.title} ({position.term})"


def word_phases(tempo: Tempo) -> tuple[tuple[str, str], ...]:
    """Return each phase that takes time as its word and its seconds."""
    return tuple(
        (_BREATHE.get(step, step), format_seconds(seconds)) for step, seconds in tempo.steps
    )


def word_tempo(tempo: Tempo) -> str:
    """Say a tempo as a coach does: breathe in 4, pause 1, breathe out 4, pause 1."""
    return ", ".join(f"{word} {seconds}" for word, seconds in word_phases(tempo))


def word_rate(tempo: Tempo) -> str:
    """Say how many breaths a minute a tempo makes, to the nearest half."""
    rate = rate_per_minute(tempo)
    halves = round(rate * 2) / 2
    about = "" if halves == rate else "about "
    noun = "breath" if halves == 1 else "breaths"
    return f"{about}{format_seconds(halves)} {noun} a minute"


def word_dose(dose: Dose | TimedDose) -> str:
    """Say a dose plainly: 2 sets of 6 breaths, 30 s rest between."""
    if isinstance(dose, TimedDose):
        return word_count(dose.minutes, "minute")
    breaths = word_count(dose.breaths, "breath")
    sets = breaths if dose.sets == 1 else f"{word_count(dose.sets, 'set')} of {breaths}"
    return f"{sets}{_SIDES[dose.sides]}{_word_rest(dose)}"


def word_time(time: DrillTime) -> str:
    """Say how long a lesson takes, in whole minutes."""
    return f"about {max(1, round(time.lesson_seconds / 60))} min"


def word_minutes(seconds: float) -> str:
    """Say a length to the second, such as 2 min 38 s."""
    minutes, left = divmod(round(seconds), 60)
    return f"{minutes} min {left} s" if minutes else f"{left} s"


def word_prop(use: PropUse) -> str:
    """Name a prop, with a number where one person needs more than one."""
    return use.prop.title if use.count == 1 else f"{use.count} × {use.prop.title}"


def word_review(review: Review | None) -> str:
    """Say who looked a lesson over and when; nothing where nobody did."""
    return "" if review is None else f"reviewed {word_date(review.on)} by {review.by}"


def _word_rest(dose: Dose) -> str:
    if dose.rounds == 1 or dose.rest_seconds == 0:
        return ""
    if dose.rest_seconds % 60 == 0:
        return f", {dose.rest_seconds // 60} min rest between"
    return f", {dose.rest_seconds} s rest between"
