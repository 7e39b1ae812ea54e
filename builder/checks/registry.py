"""Every check in one ordered table; adding a rule takes one function and one line here."""

from collections.abc import Callable, Iterable
from dataclasses import dataclass

from builder import rules
from builder.checks import (
    demand,
    order,
    words_grade,
    words_sides,
    words_spelling,
    words_terms,
    words_tone,
)
from builder.course.course import Course
from builder.findings import Finding, Rule


@dataclass(frozen=True, slots=True)
class Check:
    """A pure function of the course, and the rules whose breach it reports."""

    rules: tuple[Rule, ...]
    find: Callable[[Course], Iterable[Finding]]


CHECKS = (
    Check((rules.BUILDS_ON_UNKNOWN,), order.find_unknown_builds_on),
    Check((rules.CIRCULAR_ORDER,), order.find_circular_order),
    Check((rules.UNREACHABLE_LESSON,), order.find_unreachable_lessons),
    Check((rules.SKIPPED_LEVEL,), order.find_skipped_levels),
    Check((rules.BUILDS_ON_HIGHER_LEVEL,), order.find_higher_levels),
    Check((rules.EASIER_NOT_EASIER,), order.find_easier_not_easier),
    Check((rules.HARDER_NOT_HARDER,), order.find_harder_not_harder),
    Check((rules.NO_WAY_BACK,), order.find_no_way_back),
    Check((rules.READINESS_MISSING,), order.find_missing_readiness),
    Check((rules.NAVIGATION_OUT_OF_ORDER,), order.find_lessons_out_of_order),
    Check((rules.TWIN_LESSONS,), order.find_twin_lessons),
    Check((rules.NEIGHBOUR_UNKNOWN,), order.find_unknown_neighbours),
    Check((rules.TOO_MANY_DEMANDS, rules.DEMAND_JUMP), demand.find_steep_demand),
    Check((rules.HOLD_WITH_NEW_DEMAND,), demand.find_hold_with_new_demand),
    Check((rules.HARD_WORDS, rules.VERY_HARD_WORDS), words_grade.find_hard_words),
    Check((rules.LONG_SENTENCE,), words_grade.find_long_sentences),
    Check((rules.LONG_CUE,), words_grade.find_long_cues),
    Check((rules.TERM_WITHOUT_ENTRY,), words_terms.find_terms_without_entry),
    Check((rules.BLAME_OR_FEAR,), words_tone.find_blame_or_fear),
    Check((rules.SIDES_UNLIKE_MOVING,), words_sides.find_sides_unlike_moving),
    Check((rules.COACH_WORDS_FOR_CLIENTS,), words_terms.find_coach_words),
    Check((rules.FOREIGN_SPELLING,), words_spelling.find_foreign_spelling),
)
