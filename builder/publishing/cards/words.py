"""The words that must stand on a card, each under a name to report it by."""

from collections.abc import Iterable

from builder.course.audience import Audience
from builder.language import language_of
from builder.publishing.cards.face import CardFace
from builder.publishing.views.inline import strip_tags
from builder.publishing.views.lesson_view import LessonView

NOTICE = "notice "
"""Names of notices begin with this."""
CAUTION = "caution"


def list_wanted_words(face: CardFace) -> dict[str, str]:
    """Return everything that must be read on a finished card."""
    lesson = face.lesson
    level = language_of(face.language).say("level {level}", level=lesson.level)
    words = {
        **list_lesson_words(lesson),
        "level": f"{lesson.strand_title}, {level}",
        "tempo": f"{lesson.tempo.text}, {lesson.tempo.rate}" if lesson.tempo else "",
        "review date": lesson.reviewed or "",
        "position line": face.position_line,
    }
    others = {"easier": face.easier, "harder": face.harder}
    words |= {name: text for name, text in others.items() if text}
    if face.audience is Audience.COACH:
        words |= {**_number("coach note", face.lesson.coach_notes), "air": face.air}
    return words


def list_lesson_words(lesson: LessonView) -> dict[str, str]:
    """Return what a page and a card must both say of a lesson."""
    notices = {f"{NOTICE}{notice.id}": strip_tags(notice.short) for notice in lesson.notices}
    cues = {"in-breath": lesson.cue_inhale or "", "out-breath": lesson.cue_exhale or ""}
    faults = (f"{item.fault}{item.cure}" for item in lesson.watch_for)
    return {
        **notices,
        CAUTION: lesson.caution,
        "title": lesson.title,
        "dose": lesson.dose,
        **{name: strip_tags(cue) for name, cue in cues.items()},
        **_number("set up", lesson.set_up),
        **_number("step", lesson.steps),
        **_number("watch for", faults),
        **_number("ready when", lesson.ready_when),
        **_number("stop if", lesson.stop_if),
        **_number("if it is hard", lesson.if_hard),
    }


def count_parts(face: CardFace, *, back: bool) -> dict[str, int]:
    """Return the words of each part that an author can shorten, by its name on the card."""
    lesson = face.lesson
    if back:
        return {"Coach notes": _count(lesson.coach_notes)}
    return {
        "Set up": _count(lesson.set_up),
        "Steps": _count(lesson.steps),
        "Watch for": _count(f"{item.fault} {item.cure}" for item in lesson.watch_for),
        "Ready when": _count(lesson.ready_when),
        "Stop if": _count(lesson.stop_if),
        "If it is hard": _count(lesson.if_hard),
        "Notices": _count(notice.short for notice in lesson.notices),
    }


def count_pictures(face: CardFace, *, is_dense: bool) -> int:
    """Return how many pictures stand on a card: its figure, its tempo's strip, its code."""
    has_strip = face.tempo is not None or not is_dense
    return (face.figure is not None) + has_strip + bool(face.qr)


def _number(name: str, texts: Iterable[str]) -> dict[str, str]:
    return {f"{name} {index}": strip_tags(text) for index, text in enumerate(texts, 1)}


def _count(texts: Iterable[str]) -> int:
    return sum(len(strip_tags(text).split()) for text in texts)


def is_caution(name: str) -> bool:
    """Tell whether wanted words are a notice or the caution, by their name."""
    return name == CAUTION or name.startswith(NOTICE)
