"""Tempo against words: a card never says one count in its header and another in its text."""

from collections.abc import Iterator

from builder import rules
from builder.checks.spoken_count import Phase, SpokenCount, find_spoken_counts
from builder.checks.texts import Text, doing_texts
from builder.course.course import Course
from builder.course.lesson import Lesson
from builder.course.tempo import NATURAL, PAUSE_SECONDS, Tempo, format_seconds
from builder.findings import Finding


def find_tempo_unlike_words(course: Course) -> Iterator[Finding]:
    """Report counts in the words that the tempo doesn't have.

    A ladder goes through several tempos, so its words are left alone.
    """
    for lesson in course.lessons:
        if lesson.ladder:
            continue
        for text, spoken in _spoken(lesson):
            fact = _disagrees(lesson, spoken)
            if fact:
                yield rules.TEMPO_UNLIKE_WORDS.at(
                    text.place,
                    f'the words say "{spoken.quote}", {fact}',
                    "change the words or the tempo so that both say the same",
                )


def _spoken(lesson: Lesson) -> Iterator[tuple[Text, SpokenCount]]:
    defaults = {lesson.at("cues.inhale"): Phase.INHALE, lesson.at("cues.exhale"): Phase.EXHALE}
    has_cues = lesson.words.cues is not None
    for text in doing_texts(lesson):
        default = defaults.get(text.place) if has_cues else None
        for spoken in find_spoken_counts(text.words, default):
            yield text, spoken


def _disagrees(lesson: Lesson, spoken: SpokenCount) -> str:
    """Return what the header says instead, or nothing where both agree."""
    tempo = lesson.drill.tempo
    if tempo is None:
        is_known_hold = spoken.phase is Phase.HOLD and (
            spoken.high <= PAUSE_SECONDS or "breath-hold" in lesson.drill.named_traits
        )
        return "" if is_known_hold else f'but the tempo is "{NATURAL}"'
    counts = _counts(tempo, spoken)
    if any(spoken.low <= seconds <= spoken.high for seconds in counts):
        return ""
    found = " and ".join(dict.fromkeys(format_seconds(seconds) for seconds in counts))
    return f"but the {spoken.phase} of {tempo} takes {found} s"


def _counts(tempo: Tempo, spoken: SpokenCount) -> tuple[float, ...]:
    if spoken.phase is Phase.INHALE:
        return (tempo.inhale,)
    if spoken.phase is Phase.EXHALE:
        return (tempo.exhale,)
    if spoken.after is Phase.INHALE:
        return (tempo.hold_in,)
    return (tempo.hold_out,) if spoken.after is Phase.EXHALE else (tempo.hold_in, tempo.hold_out)
