"""Where the parts of a translation stand in its file."""

from builder.course.translation import LessonWords, NoticeWords, Positions
from builder.findings import Place
from builder.reading.translation.parts import LONG_TEXT

_HEADER_KEYS = {
    "in-breath cue": "cues.inhale",
    "out-breath cue": "cues.exhale",
    "watch for": "watch_for",
    "ready when": "ready_when",
    "stop if": "stop_if",
}
"""Parts whose name differs from the header's key."""


def find_lesson_place(words: LessonWords, name: str, index: int) -> Place:
    """Return the place of a lesson's part."""
    passages = {
        "set-up": words.words.set_up,
        "step": words.words.steps,
        "if it is hard": words.words.if_hard,
        "coach note": words.words.coach_notes,
    }.get(name, ())
    if index < len(passages):
        return Place(words.path, passages[index].line)
    key = _HEADER_KEYS.get(name, name)
    return find_key(words.path, words.positions, f"{key}.{index}")


def find_notice_place(words: NoticeWords, name: str, index: int) -> Place:
    """Return the place of a notice's part."""
    if name == LONG_TEXT:
        return Place(words.path, words.long_line)
    return find_key(words.path, words.positions, f"{name}.{index}")


def find_key(path: str, positions: Positions, key: str) -> Place:
    """Return the place of a key, or of the nearest one around it."""
    while key and key not in positions:
        key = key.rpartition(".")[0]
    return Place(path, *positions.get(key, (1, 1)))
