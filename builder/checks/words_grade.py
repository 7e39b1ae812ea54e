"""Words: how hard a text is to read, and how long its sentences and cues are."""

from collections.abc import Iterator, Sequence

from builder import rules
from builder.checks.words_text import (
    Saying,
    list_client_sayings,
    list_cues,
    list_notice_sayings,
)
from builder.course.course import Course
from builder.findings import Finding, Place
from builder.sums.reading_grade import (
    count_words,
    find_words,
    flesch_kincaid_grade,
    split_sentences,
)

_SHOWN_CHARACTERS = 60


def find_hard_words(course: Course) -> Iterator[Finding]:
    """Report lessons and notices whose reading grade is over the limits (English only)."""
    if not is_english(course):
        return
    for lesson in course.lessons:
        yield from _grade(course, list_client_sayings(course, lesson), lesson.at("title"))
    for notice in course.notices:
        yield from _grade(course, list_notice_sayings(notice), notice.at("title"))


def find_long_sentences(course: Course) -> Iterator[Finding]:
    """Report sentences with more words than the limit, in lessons and notices."""
    limit = course.settings.limits.sentence_words
    sayings = [
        saying for lesson in course.lessons for saying in list_client_sayings(course, lesson)
    ]
    sayings += [saying for notice in course.notices for saying in list_notice_sayings(notice)]
    for saying in sayings:
        for sentence in split_sentences(saying.text):
            length = len(find_words(sentence))
            if length > limit:
                yield rules.LONG_SENTENCE.at(
                    saying.place,
                    f'the sentence "{_shorten(sentence)}" has {length} words',
                    f"split it, so that each has at most {limit}",
                )


def find_long_cues(course: Course) -> Iterator[Finding]:
    """Report cues with more words than can be said within a breath."""
    limit = course.settings.limits.cue_words
    for lesson in course.lessons:
        for cue in list_cues(lesson):
            length = len(find_words(cue.text))
            if length > limit:
                yield rules.LONG_CUE.at(
                    cue.place,
                    f'the cue "{_shorten(cue.text)}" has {length} words',
                    f"say it in at most {limit}",
                )


def is_english(course: Course) -> bool:
    """Tell whether the course is written in English; word lists and syllables are English."""
    return course.settings.language.lower().split("-")[0] == "en"


def _grade(course: Course, sayings: Sequence[Saying], place: Place) -> Iterator[Finding]:
    counts = count_words("\n\n".join(saying.text for saying in sayings))
    if not counts.words:
        return
    limits = course.settings.limits
    grade = flesch_kincaid_grade(counts)
    if grade > limits.grade_warn:
        is_very_hard = grade > limits.grade_error
        rule = rules.VERY_HARD_WORDS if is_very_hard else rules.HARD_WORDS
        limit = limits.grade_error if is_very_hard else limits.grade_warn
        yield rule.at(
            place,
            f"the reading grade is {grade:.1f}, over {limit:g} ({counts})",
            "use shorter sentences and words, in these first",
            *_hardest_sentences(sayings),
        )


def _hardest_sentences(sayings: Sequence[Saying], number: int = 3) -> list[str]:
    """Name the sentences that are hardest to read, hardest first."""
    graded = [
        (-flesch_kincaid_grade(count_words(sentence)), saying.place.line, sentence)
        for saying in sayings
        for sentence in split_sentences(saying.text)
    ]
    return [f'line {line}: "{_shorten(text)}"' for _, line, text in sorted(graded)[:number]]


def _shorten(text: str) -> str:
    return text if len(text) <= _SHOWN_CHARACTERS else f"{text[:_SHOWN_CHARACTERS].rstrip()}…"
