"""Words: a left or right limb that moves in the steps, but not in the header."""

import re
from collections.abc import Iterator

from builder import rules
from builder.checks.texts import cue_texts, passage_texts
from builder.checks.words_grade import is_english
from builder.course.course import Course
from builder.course.lesson import Lesson, Limb
from builder.findings import Finding

_LIMBS = {
    "arm": "arm",
    "elbow": "arm",
    "leg": "leg",
    "knee": "leg",
    "foot": "leg",
    "heel": "leg",
    "thigh": "leg",
}
_PARTS = "|".join(_LIMBS)
_MOVES = "|".join(
    (
        *("lift", "raise", "lower", "reach", "stretch", "straighten", "extend", "swing", "kick"),
        *("slide", "bend", "drop", "circle", "march", "sweep", "float"),
    )
)
_SIDE = r"(?P<side>left|right)"
_ADVERB = r"(?:slowly |gently |then |softly )?"
_MOVED = re.compile(
    rf"\b(?:{_MOVES})(?:s|es)? {_ADVERB}(?:with )?(?:the |your )?{_SIDE} (?P<part>{_PARTS})\b"
    rf"|\b(?P<side2>left|right) (?P<part2>{_PARTS}) (?:{_MOVES})s?\b",
    re.IGNORECASE,
)


def find_sides_unlike_moving(course: Course) -> Iterator[Finding]:
    """Report a limb that a step or cue moves by name though the header doesn't list it."""
    for lesson in course.lessons if is_english(course) else ():
        yield from _find(lesson)


def _find(lesson: Lesson) -> Iterator[Finding]:
    listed = set(lesson.drill.moving)
    seen: set[Limb] = set()
    for text in (*passage_texts(lesson, *lesson.words.steps), *cue_texts(lesson)):
        for found in _MOVED.finditer(text.words):
            side = (found["side"] or found["side2"]).lower()
            limb = Limb(f"{side}-{_LIMBS[(found['part'] or found['part2']).lower()]}")
            if limb in listed or limb in seen:
                continue
            seen.add(limb)
            moving = ", ".join(lesson.drill.moving) or "none"
            yield rules.SIDES_UNLIKE_MOVING.at(
                text.place,
                f'the words "{found.group()}" move the {side} {limb.value.partition("-")[2]}, '
                f"the header's moving: {moving}",
                f'add "{limb}" to moving, or change the words',
            )
