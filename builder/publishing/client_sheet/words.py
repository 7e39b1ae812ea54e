"""The words that must stand on a finished sheet, each under a name to report it by."""

from collections.abc import Iterable, Iterator

from markupsafe import Markup

from builder.publishing.client_sheet.view import SheetLesson, SheetView
from builder.publishing.views.inline import strip_tags


def list_wanted_words(view: SheetView) -> dict[str, str]:
    """Return everything that must be read on a finished sheet; cautions first."""
    said = (
        ("caution", view.caution.words),
        ("ask first", view.ask_first),
        ("other language", view.other_language),
        *_number("own caution", (item.words for item in view.own_cautions)),
        *_number("notice", (item.words for group in view.cautions for item in group.cautions)),
        *(pair for lesson in view.lessons for pair in _list_lesson(lesson)),
        *_number("step of the ladder", (rung.tempo for rung in view.rungs)),
        *_number("trend", (text for trend in view.trends for text in trend.sentences)),
        ("name", view.name),
        ("goal", view.goal),
        ("retest", view.retest),
        ("no lessons", view.no_lessons),
        ("with the coach", view.with_coach),
        ("studio", view.studio),
    )
    return {name: _read(words) for name, words in said if words}


def _read(words: str) -> str:
    return strip_tags(words) if isinstance(words, Markup) else words


def _list_lesson(lesson: SheetLesson) -> Iterator[tuple[str, str]]:
    name = f"lesson {lesson.number}"
    yield f"title of {name}", lesson.title
    yield f"language of {name}", lesson.untranslated
    yield f"thin weeks of {name}", lesson.thin
    yield f"dose of {name}", lesson.dose
    yield f"position of {name}", lesson.position
    yield f"what the page shows of {name}", lesson.usual
    yield f"sides of {name}", lesson.sides
    yield f"props of {name}", lesson.props
    yield f"count of {name}", lesson.tempo_text
    yield f"version of {name}", lesson.version
    for part, texts in (
        ("cue", lesson.cues),
        ("sign of readiness", lesson.ready_when),
        ("stop sign", lesson.stop_if),
        ("day", (day for week in lesson.weeks for day in week.days)),
    ):
        yield from _number(f"{part} of {name}", texts)


def _number(name: str, texts: Iterable[str]) -> Iterator[tuple[str, str]]:
    for index, text in enumerate(texts, 1):
        yield f"{name} {index}", text
