"""Proof that pages say all that their lessons and notices say."""

from collections.abc import Iterator, Mapping

from builder import rules
from builder.course.course import Course
from builder.course.lesson import Lesson
from builder.findings import Finding
from builder.publishing.cards.words import NOTICE, list_lesson_words
from builder.publishing.proof.read_back import fold_text
from builder.publishing.views.inline import no_link, render_inline, strip_tags
from builder.publishing.views.lesson_in_words import view_lesson

_CAUTION = "caution"


def find_lost_words(course: Course, lesson: Lesson, text: str) -> Iterator[Finding]:
    """Report notices, caution, steps and cues that a finished page lacks."""
    view = view_lesson(course, lesson, no_link)
    wanted = {**list_lesson_words(view), "tempo": view.tempo_text, "position": view.position}
    for name in _find_missing(text, wanted):
        is_notice = name.startswith(NOTICE) or name == _CAUTION
        rule = rules.NOTICE_MISSING if is_notice else rules.TEXT_LOST
        yield rule.at(
            lesson.at("title"),
            f'the finished page lacks the {name}: "{wanted[name]}"',
            "build again; if it stays away, a template or another plugin takes it out",
        )


def find_lost_notices(course: Course, text: str) -> Iterator[Finding]:
    """Report notices whose title, short text or adaptation the safety page lacks."""
    letters = fold_text(text)
    for notice in course.notices:
        wanted = (notice.title, notice.short, notice.adapt)
        for words in wanted:
            if fold_text(strip_tags(render_inline(words, {}, no_link))) not in letters:
                yield rules.NOTICE_MISSING.at(
                    notice.at("short"),
                    f'the finished safety page lacks "{words}"',
                    "put {notice-list} on it, and build again",
                )


def _find_missing(text: str, wanted: Mapping[str, str]) -> Iterator[str]:
    """Yield the names of texts that stand on a page less often than they should.

    A cue may be part of a step: a page must then show its words twice.
    """
    letters = fold_text(text)
    folded = {name: fold_text(words) for name, words in wanted.items()}
    for name, words in folded.items():
        needed = sum(other.count(words) for other in folded.values()) if words else 0
        if letters.count(words) < needed:
            yield name
