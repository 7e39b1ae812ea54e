"""Values of a drill as words that are ready to print, in the language of the course."""

from datetime import date

from builder.course.dose import Dose, Sides, TimedDose
from builder.course.notice import Action, Review, Source
from builder.course.tempo import Step, Tempo
from builder.course.vocabulary import Position, PropUse
from builder.drawing.labels import write_tempo
from builder.language import Language, mark
from builder.sums.timing import DrillTime, rate_per_minute

_PHASES = {
    Step.IN: mark("breathe in"),
    Step.HOLD: mark("hold"),
    Step.OUT: mark("breathe out"),
    Step.PAUSE: mark("pause"),
}


def word_action(language: Language, action: Action) -> str:
    """Say what a notice asks for."""
    match action:
        case Action.STOP:
            return language.say_as("notice", "Stop")
        case Action.ASK_FIRST:
            return language.say_as("notice", "Ask first")
        case Action.ADAPT:
            return language.say_as("notice", "Adapt")
        case Action.NOTE:
            return language.say_as("notice", "Note")


def word_count(count: int, noun: str) -> str:
    """Write a number with its English noun, as reports have it: 1 set, 2 sets."""
    return f"{count} {noun}" if count == 1 else f"{count} {noun}s"


def word_date(language: Language, day: date) -> str:
    """Write a date as 1 October 2026, whatever the machine's language."""
    return language.date(day)


def word_position(position: Position) -> str:
    """Say a position plainly, with the trade's word in brackets where it is another one."""
    if position.term in ("", position.title):
        return position.title
    return f"{position.title} ({position.term})"


def word_instead(language: Language, position: Position) -> str:
    """Say that somebody does a lesson in another position than it has."""
    return language.say("{position} instead", position=position.title)


def word_figures(language: Language, tempo: Tempo | None) -> str:
    """Write a tempo in figures, or that people breathe at their own pace."""
    if tempo is None:
        return language.say("at your own pace")
    return write_tempo(tempo, language)


def word_phases(language: Language, tempo: Tempo) -> tuple[tuple[str, str], ...]:
    """Return each phase that takes time as its word and its seconds."""
    return tuple(
        (language.say(_PHASES[step]), language.number(seconds)) for step, seconds in tempo.steps
    )


def word_tempo(language: Language, tempo: Tempo) -> str:
    """Say a tempo as a coach does: breathe in 4, pause 1, breathe out 4, pause 1."""
    return ", ".join(f"{word} {seconds}" for word, seconds in word_phases(language, tempo))


def word_rate(language: Language, tempo: Tempo) -> str:
    """Say how many breaths a minute a tempo makes, to the nearest half."""
    rate = rate_per_minute(tempo)
    halves = round(rate * 2) / 2
    words = language.say_many("{count} breath a minute", "{count} breaths a minute", halves)
    return words if halves == rate else language.say("about {rate}", rate=words)


def word_dose(language: Language, dose: Dose | TimedDose) -> str:
    """Say a dose plainly: 2 sets of 6 breaths, 30 s rest between."""
    if isinstance(dose, TimedDose):
        return language.say_many("{count} minute", "{count} minutes", dose.minutes)
    words = language.say_many("{count} breath", "{count} breaths", dose.breaths)
    if dose.sets != 1:
        words = language.say_many(
            "{count} set of {breaths}", "{count} sets of {breaths}", dose.sets, breaths=words
        )
    if dose.sides is Sides.EACH:
        words = language.say("{dose} on each side", dose=words)
    elif dose.sides is Sides.ALTERNATE:
        words = language.say("{dose}, both sides in turn", dose=words)
    if dose.rounds == 1 or dose.rest_seconds == 0:
        return words
    return language.say("{dose}, {time} rest between", dose=words, time=_word_rest(language, dose))


def word_time(language: Language, time: DrillTime) -> str:
    """Say how long a lesson takes, in whole minutes."""
    minutes = max(1, round(time.lesson_seconds / 60))
    return language.say("about {minutes} min", minutes=language.number(minutes))


def word_minutes(language: Language, seconds: float) -> str:
    """Say a length to the second, such as 2 min 38 s."""
    minutes, left = divmod(round(seconds), 60)
    if minutes:
        return language.say("{minutes} min {seconds} s", minutes=minutes, seconds=left)
    return language.say("{seconds} s", seconds=left)


def word_prop(use: PropUse) -> str:
    """Name a prop, with a number where one person needs more than one."""
    return use.prop.title if use.count == 1 else f"{use.count} × {use.prop.title}"


def word_review(language: Language, review: Review | None) -> str:
    """Say who looked a lesson over and when; nothing where nobody did."""
    if review is None:
        return ""
    day = word_date(language, review.on)
    return language.say("reviewed {day} by {name}", day=day, name=review.by)


def word_source(language: Language, source: Source) -> str:
    """Name where a caution comes from."""
    if source.common_practice:
        return language.say("common practice")
    parts = (source.title, source.publisher, str(source.year or ""))
    return ", ".join(part for part in parts if part)


def _word_rest(language: Language, dose: Dose) -> str:
    if dose.rest_seconds % 60 == 0:
        return language.say("{minutes} min", minutes=dose.rest_seconds // 60)
    return language.say("{seconds} s", seconds=dose.rest_seconds)
