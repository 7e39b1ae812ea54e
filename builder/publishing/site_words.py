"""Proof that a lesson's page says all that its lesson says, and none of what it must not."""

from collections.abc import Iterator

from builder import rules
from builder.course.course import Course
from builder.course.lesson import Lesson
from builder.findings import Finding, Rule
from builder.publishing.inline import no_link, strip_tags
from builder.publishing.read_back import find_missing_texts
from builder.publishing.views import LessonView, view_lesson


def find_lost_words(course: Course, lesson: Lesson, text: str) -> Iterator[Finding]:
    """Report notices, caution, steps and cues that a finished page lacks."""
    wanted = {
        f'{part}: "{strip_tags(words)}"': (rule, strip_tags(words))
        for rule, part, words in _list_words(view_lesson(course, lesson, no_link))
    }
    missing = find_missing_texts(text, {name: words for name, (_, words) in wanted.items()})
    for name in missing:
        yield wanted[name][0].at(
            lesson.at("title"),
            f"the finished page lacks {name}",
            "build again; if it stays away, a template or another plugin takes it out",
        )


def _list_words(view: LessonView) -> Iterator[tuple[Rule, str, str]]:
    """Yield everything a page must say, with the rule that it would break."""
    yield rules.NOTICE_MISSING, "the caution", view.caution
    for notice in view.notices:
        yield rules.NOTICE_MISSING, f'the notice "{notice.id}"', notice.short
        yield rules.NOTICE_MISSING, f'the action of "{notice.id}"', notice.action_word
    for name, words in (
        ("a stop sign", view.stop_if),
        ("the set up", view.set_up),
        ("a step", view.steps),
        ("an easier way", view.if_hard),
        ("a sign of readiness", view.ready_when),
        ("a cue", tuple(cue for cue in (view.cue_inhale, view.cue_exhale) if cue)),
        ("a fault to watch for", tuple(item.fault for item in view.watch_for)),
        ("what to do about a fault", tuple(item.cure for item in view.watch_for)),
    ):
        for text in words:
            yield rules.TEXT_LOST, name, text
    yield rules.TEXT_LOST, "the tempo", view.tempo_text
    yield rules.TEXT_LOST, "the dose", view.dose
