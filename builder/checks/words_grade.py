"""Words: how hard a text is to read, and how long its sentences and cues are."""

from collections.abc import Iterator, Sequence

from builder import rules
from builder.checks.texts import Text, client_texts, cue_texts, notice_texts, write_out
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
        texts = tuple(write_out(course, client_texts(lesson)))
        yield from _grade(course, texts, lesson.at("title"))
    for notice in course.notices:
        yield from _grade(course, tuple(notice_texts(notice)), notice.at("title"))


def find_long_sentences(course: Course) -> Iterator[Finding]:
    """Report sentences with more words than the limit, in lessons and notices."""
    limit = course.settings.limits.sentence_words
    texts = [text for lesson in course.lessons for text in write_out(course, client_texts(lesson))]
    texts += [text for notice in course.notices for text in notice_texts(notice)]
    for text in texts:
        for sentence in split_sentences(text.words):
            length = len(find_words(sentence))
            if length > limit:
                yield rules.LONG_SENTENCE.at(
                    text.place,
                    f'the sentence "{_shorten(sentence)}" has {length} words',
                    f"split it, so that each has at most {limit}",
                )


def find_long_cues(course: Course) -> Iterator[Finding]:
    """Report cues with more words than can be said within a breath."""
    limit = course.settings.limits.cue_words
    for lesson in course.lessons:
        for cue in cue_texts(lesson):
            length = len(find_words(cue.words))
            if length > limit:
                yield rules.LONG_CUE.at(
                    cue.place,
                    f'the cue "{_shorten(cue.words)}" has {length} words',
                    f"say it in at most {limit}",
                )


def is_english(course: Course) -> bool:
    """Tell whether the course is written in English; word lists and syllables are English."""
    return course.settings.language.lower().split("-")[0] == "en"


def _grade(course: Course, texts: Sequence[Text], place: Place) -> Iterator[Finding]:
    counts = count_words("\n\n".join(text.words for text in texts))
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
            *_hardest_sentences(texts),
        )


def _hardest_sentences(texts: Sequence[Text], number: int = 3) -> list[str]:
    """Name the sentences that are hardest to read, hardest first."""
    graded = [
        (-flesch_kincaid_grade(count_words(sentence)), text.place.line, sentence)
        for text in texts
        for sentence in split_sentences(text.words)
    ]
    return [f'line {line}: "{_shorten(text)}"' for _, line, text in sorted(graded)[:number]]


def _shorten(text: str) -> str:
    return text if len(text) <= _SHOWN_CHARACTERS else f"{text[:_SHOWN_CHARACTERS].rstrip()}…"
