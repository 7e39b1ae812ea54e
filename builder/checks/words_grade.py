"""Words: how hard a text is to read, and how long its sentences and cues are."""

from collections.abc import Iterator, Sequence

from builder import rules
from builder.checks.texts import Text, client_texts, cue_texts, notice_texts, write_out
from builder.course.course import Course
from builder.course.language_tag import root_of
from builder.findings import Finding, Place
from builder.sums.readability import AVERAGE, FAIRLY_EASY, FORMULAS_BY_LANGUAGE, Formula
from builder.sums.reading_grade import find_words, split_sentences

_SHOWN_CHARACTERS = 60


def find_hard_words(course: Course) -> Iterator[Finding]:
    """Report lessons and notices that are hard to read, by the formula of their language.

    A language without a formula here isn't graded.
    """
    formula = FORMULAS_BY_LANGUAGE.get(root_of(course.settings.language))
    if formula is None:
        return
    for lesson in course.lessons:
        texts = tuple(write_out(course, client_texts(lesson)))
        yield from _grade(course, formula, texts, lesson.at("title"))
    for notice in course.notices:
        yield from _grade(course, formula, tuple(notice_texts(notice)), notice.at("title"))


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
    return root_of(course.settings.language) == "en"


def _grade(
    course: Course, formula: Formula, texts: Sequence[Text], place: Place
) -> Iterator[Finding]:
    whole = "\n\n".join(text.words for text in texts)
    if not split_sentences(whole):
        return
    limits = course.settings.limits
    first, last = limits.grade_warn, limits.grade_error
    if formula.is_ease:
        first, last = FAIRLY_EASY, AVERAGE
    score = formula.score(whole)
    if _is_beyond(formula, score, first):
        is_very_hard = _is_beyond(formula, score, last)
        rule = rules.VERY_HARD_WORDS if is_very_hard else rules.HARD_WORDS
        limit = last if is_very_hard else first
        side = "under" if formula.is_ease else "over"
        yield rule.at(
            place,
            f"the {formula.name} is {score:.1f}, {side} {limit:g} ({formula.describe(whole)})",
            "use shorter sentences and words, in these first",
            *_hardest_sentences(formula, texts),
        )


def _is_beyond(formula: Formula, score: float, limit: float) -> bool:
    return score < limit if formula.is_ease else score > limit


def _hardest_sentences(formula: Formula, texts: Sequence[Text], number: int = 3) -> list[str]:
    """Name the sentences that are hardest to read, hardest first."""
    sign = 1 if formula.is_ease else -1
    graded = [
        (sign * formula.score(sentence), text.place.line, sentence)
        for text in texts
        for sentence in split_sentences(text.words)
    ]
    return [f'line {line}: "{_shorten(text)}"' for _, line, text in sorted(graded)[:number]]


def _shorten(text: str) -> str:
    return text if len(text) <= _SHOWN_CHARACTERS else f"{text[:_SHOWN_CHARACTERS].rstrip()}…"
