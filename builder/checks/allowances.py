"""Allowances: a lesson may break a rule with a reason, if the rule keeps nobody from harm."""

from collections.abc import Collection, Iterable, Iterator

from builder import rules
from builder.course.course import Course
from builder.course.lesson import Lesson
from builder.findings import Finding, Rule

_NEVER_ALLOWED = frozenset(
    {
        rules.BUILDS_ON_UNKNOWN,
        rules.CIRCULAR_ORDER,
        rules.UNREACHABLE_LESSON,
        rules.NEIGHBOUR_UNKNOWN,
        rules.HOLD_WITH_NEW_DEMAND,
        rules.HOLD_BEFORE_COUNT,
        rules.HOLD_TOO_LONG,
        rules.LIMB_UP_TOO_LONG,
        rules.BREATH_BEYOND_CAPACITY,
        rules.BOX_WHILE_MOVING,
        rules.TRAIT_WITHOUT_NOTICE,
        rules.WAIVER_WITHOUT_REASON,
        rules.WAIVER_REFUSED,
        rules.NOTICE_LOST,
        rules.STOP_SIGNS_MISSING,
        rules.HANDS_ON_WITHOUT_CONSENT,
        rules.CURE_CLAIM,
        rules.PUSH_THROUGH_PAIN,
        rules.NOTICE_MISSING,
        rules.NOTICE_UNTRANSLATED,
        rules.TRANSLATION_UNLIKE,
        rules.NUMBERS_UNLIKE,
        rules.CAUTION_STALE,
        rules.SIDES_SWAPPED,
        rules.TEXT_LOST,
    }
)
"""Rules that keep people from harm, or without which no order can be worked out."""
_LEAST_WORDS = 2
_FAMILIES = frozenset("DFNOPRSTW")
"""First letters of the rules by which lessons are checked. What is read, made or proved by other
rules is no lesson's own choice."""


def may_be_allowed(rule: Rule) -> bool:
    """Tell whether a lesson may break a rule with a reason."""
    return rule not in _NEVER_ALLOWED and rule.id[0] in _FAMILIES


def drop_allowed(course: Course, findings: Iterable[Finding]) -> tuple[Finding, ...]:
    """Leave out the findings that their lessons allow."""
    allowed = {
        (lesson.path, rule_id)
        for lesson in course.lessons
        for rule_id in lesson.allowed
        if may_be_allowed(rules.RULES_BY_ID[rule_id])
    }
    return tuple(
        finding for finding in findings if (finding.place.path, finding.rule.id) not in allowed
    )


def find_faulty_allowances(course: Course, findings: Iterable[Finding]) -> Iterator[Finding]:
    """Report allowances that hide none of the findings, or that no lesson may give itself."""
    broken: dict[str, set[str]] = {}
    for finding in findings:
        broken.setdefault(finding.place.path, set()).add(finding.rule.id)
    for lesson in course.lessons:
        for rule_id in lesson.allowed:
            yield from _examine(lesson, rule_id, broken.get(lesson.path, set()))


def _examine(lesson: Lesson, rule_id: str, broken: Collection[str]) -> Iterator[Finding]:
    rule = rules.RULES_BY_ID[rule_id]
    place = lesson.at(f"allow.{rule_id}")
    if not may_be_allowed(rule):
        yield rules.ALLOWANCE_REFUSED.at(
            place,
            f"no lesson may break {rule_id} ({rule.name})",
            "take the allowance out and mend what the rule finds",
        )
    elif len(lesson.allowed[rule_id].split()) < _LEAST_WORDS:
        yield rules.ALLOWANCE_REFUSED.at(
            place,
            f'"{lesson.allowed[rule_id]}" is no reason to break {rule_id} ({rule.name})',
            "say why it harms nobody, in more than a word",
        )
    elif rule_id not in broken:
        yield rules.ALLOWANCE_UNUSED.at(
            place, f"the lesson doesn't break {rule_id} ({rule.name})", "take the allowance out"
        )
