"""One-sided drills: nobody is left with one side done and the other forgotten."""

import re
from collections.abc import Iterator

from builder import rules
from builder.checks.texts import doing_texts
from builder.course.course import Course
from builder.course.dose import Dose, Sides
from builder.course.lesson import Lesson, Limb
from builder.findings import Finding, Place

_PART = (
    r"(?:arms?|elbows?|shoulders?|wrists?|legs?|knees?|thighs?|shins?|heels?|ankles?"
    r"|foot|feet|hips?|side|limbs?)"
)
_ADJECTIVE = r"(?:(?:top|upper|lower|bent|straight|front|back|bottom|whole) )?"
_ONE = re.compile(rf"\b(left|right|one) {_ADJECTIVE}{_PART}\b", re.IGNORECASE)
_POSITION = re.compile(
    r"\bside[- ]lying|\bon (?:the|one|your) (?:left |right )?side\b|\bhalf[- ]kneeling"
    r"|\b(?:one|single)[- ](?:leg|foot|knee)|\blunge|\bsplit stance",
    re.IGNORECASE,
)
_OTHER = re.compile(
    r"\b(?:both|other|either|each|opposite|alternat\w+|in turn|turns|swap\w*|switch\w*"
    r"|chang\w+ (?:sides?|legs?|arms?)|second side)\b",
    re.IGNORECASE,
)


def find_missing_sides(course: Course) -> Iterator[Finding]:
    """Report one-sided drills that don't say how the sides share the dose."""
    for lesson in course.lessons:
        dose = lesson.drill.dose
        if isinstance(dose, Dose) and dose.sides is not Sides.TOGETHER:
            continue
        found = _find_one_side(lesson)
        if found:
            place, fact = found
            yield rules.SIDES_MISSING.at(
                place, f"{fact}, and nothing says when the other side comes", _cure(dose)
            )


def _cure(dose: object) -> str:
    counted = isinstance(dose, Dose)
    return "give sides: each or alternate" if counted else "count sets and breaths with their sides"


def _find_one_side(lesson: Lesson) -> tuple[Place, str] | None:
    """Return where a drill is one-sided, and what shows it."""
    texts = list(doing_texts(lesson))
    names_other = any(_OTHER.search(text.words) for text in texts)
    position = lesson.drill.position
    if not isinstance(lesson.drill.dose, Dose) and names_other:
        return None
    if _moves_one_side(lesson):
        return lesson.at("moving"), f"only {' and '.join(lesson.drill.moving)} moves"
    if _POSITION.search(f"{position.id} {position.title} {position.term}"):
        return lesson.at("position"), f'the position "{position.id}" has two sides'
    hits = [(text.place, match) for text in texts for match in _ONE.finditer(text.words)]
    named = {match[1].lower() for _, match in hits}
    if not hits or names_other or {"left", "right"} <= named:
        return None
    place, match = hits[0]
    return place, f'the words name "{match[0]}" only'


def _moves_one_side(lesson: Lesson) -> bool:
    moving = set(lesson.drill.moving)
    pairs = ((Limb.LEFT_ARM, Limb.RIGHT_ARM), (Limb.LEFT_LEG, Limb.RIGHT_LEG))
    return any((left in moving) != (right in moving) for left, right in pairs)
