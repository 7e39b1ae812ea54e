"""Drafts of translations: the original's words in the form of a translation, to be overwritten."""

import json
from collections.abc import Iterable, Mapping

from builder.course.course import Course
from builder.course.lesson import Lesson, Passage
from builder.course.notice import Notice
from builder.course.placement import Placement
from builder.course.trait import TRAITS

_FIELDS = {
    "strands": ("title", "summary"),
    "positions": ("title", "term"),
    "props": ("title", "stand_in"),
    "conditions": ("title",),
    "traits": ("title",),
    "measures": ("title", "unit"),
}
"""What each kind of word says to people."""


def draft_lesson(lesson: Lesson) -> str:
    """Return a lesson's words; an editor writes over them."""
    words = lesson.words
    lines = [_line("title", lesson.title), _line("summary", lesson.summary)]
    for key in ("ready_when", "stop_if", "watch_for"):
        texts = getattr(words, key)
        lines += [f"{key}:", *(f"  - {_quote(text)}" for text in texts)] if texts else []
    if words.cues:
        cues = (("inhale", words.cues.inhale), ("exhale", words.cues.exhale))
        lines += ["cues:", *(f"  {_line(name, text)}" for name, text in cues)]
    body = [
        *_section("Set up", words.set_up),
        *_section("Steps", words.steps, "{}. "),
        *_section("If it is hard", words.if_hard, "- "),
        *_section("Coach notes", words.coach_notes, "- "),
    ]
    return "\n".join(("---", *lines, "---", *body)).rstrip() + "\n"


def draft_notice(notice: Notice) -> str:
    """Return a notice's words."""
    fields = (("title", notice.title), ("short", notice.short), ("adapt", notice.adapt))
    lines = (_line(name, text) for name, text in fields if text)
    return "\n".join(("---", *lines, "---", notice.long, ""))


def draft_course(course: Course) -> str:
    """Return the course file's words."""
    settings, vocabulary = course.settings, course.vocabulary
    lines = [_line(name, getattr(settings, name)) for name in ("title", "summary", "caution")]
    own = {name: trait for name, trait in course.traits.items() if TRAITS.get(name) != trait}
    for kind, fields in _FIELDS.items():
        words: Mapping[str, object] = own if kind == "traits" else getattr(vocabulary, kind)
        lines += [f"{kind}:"] if words else []
        for name, value in words.items():
            said = {key: str(getattr(value, key)) for key in fields if getattr(value, key)}
            lines += [f"  {name}:", *(f"    {_line(key, text)}" for key, text in said.items())]
    return "\n".join((*lines, ""))


def draft_placement(placement: Placement) -> str:
    """Return the placement table's words."""
    lines = ["ask_first:", *(f"  - {_quote(text)}" for text in placement.ask_first), "questions:"]
    for question in placement.questions:
        lines += [f"  {question.id}:", f"    {_line('text', question.text)}"]
        lines += ["    answers:"] if question.answers else []
        # Bare yes and no are no text to many YAML readers.
        lines += [f"      {_quote(k)}: {_quote(text)}" for k, text in question.answers.items()]
    lines.append("start:")
    for start in placement.starts:
        lines += [f"  {start.strand_id}:", *(f"    - {_quote(way.why)}" for way in start.ways)]
    return "\n".join((*lines, ""))


def _section(title: str, passages: Iterable[Passage], mark: str = "") -> list[str]:
    texts = [passage.text for passage in passages]
    if not texts:
        return []
    gap = [] if mark else [""]
    lines = [f"## {title}"]
    for number, text in enumerate(texts, 1):
        lines += [f"{mark.format(number)}{text}", *gap]
    return lines if gap else [*lines, ""]


def _line(key: str, text: str) -> str:
    return f"{key}: {_quote(text)}"


def _quote(text: str) -> str:
    """Write a text as JSON does, which is YAML too."""
    return json.dumps(text, ensure_ascii=False)
