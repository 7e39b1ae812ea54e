"""Every check in one ordered table; adding a rule takes one function and one line here."""

from collections.abc import Callable, Iterable
from dataclasses import dataclass

from builder import rules
from builder.checks import (
    air,
    claims,
    colours,
    demand,
    dose,
    efforts,
    figures,
    former_ids,
    hands_on,
    languages,
    notice_list,
    notices,
    one_sided,
    order,
    props,
    releases,
    tempo,
    tempo_words,
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
    reads_words: bool = False
    """True where it looks at what texts say, and so at each language of a course."""
    by_lesson: bool = False
    """True where what it finds in a lesson hangs on no other lesson and on no notice.

    It sees each lesson in an excerpt of its own, and what it finds there can be kept.
    """


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
    Check((rules.FORMER_ID_TAKEN,), former_ids.find_taken_former_ids),
    Check((rules.TOO_MANY_DEMANDS, rules.DEMAND_JUMP), demand.find_steep_demand),
    Check((rules.HOLD_WITH_NEW_DEMAND,), demand.find_hold_with_new_demand),
    Check((rules.CYCLE_OUT_OF_BAND,), tempo.find_cycles_out_of_band),
    Check((rules.LONG_INHALE,), tempo.find_long_inhales),
    Check((rules.HOLD_BEFORE_COUNT,), tempo.find_holds_before_count),
    Check((rules.HOLD_TOO_LONG,), tempo.find_long_holds),
    Check((rules.LIMB_UP_TOO_LONG,), tempo.find_limbs_up_too_long),
    Check(
        (rules.TEMPO_UNLIKE_WORDS,),
        tempo_words.find_tempo_unlike_words,
        reads_words=True,
        by_lesson=True,
    ),
    Check((rules.BOX_WHILE_MOVING,), tempo.find_boxes_while_moving),
    Check((rules.BOX_TOO_LONG,), tempo.find_long_boxes),
    Check((rules.BREATH_BEYOND_CAPACITY, rules.BIG_BREATH), air.find_big_breaths, by_lesson=True),
    Check((rules.EFFORT_UNLIKE_SOURCE,), efforts.find_efforts_unlike_source),
    Check((rules.SIDES_MISSING,), one_sided.find_missing_sides, by_lesson=True),
    Check((rules.ODD_ALTERNATION,), dose.find_odd_alternations),
    Check((rules.REST_MISSING,), dose.find_missing_rests),
    Check((rules.LESSON_TOO_LONG,), dose.find_long_lessons),
    Check((rules.PRACTICE_DAYS_OUT_OF_RANGE,), dose.find_practice_days_out_of_range),
    Check((rules.STEEP_LADDER,), dose.find_steep_ladders),
    Check((rules.TRAIT_WITHOUT_NOTICE,), notices.find_traits_without_notice),
    Check((rules.NOTICE_WITHOUT_LESSON,), notices.find_notices_without_lesson),
    Check((rules.NOTICE_PAST_REVIEW,), notices.find_notices_past_review),
    Check((rules.NOTICE_WITHOUT_SOURCE,), notices.find_notices_without_source),
    Check((rules.WAIVER_WITHOUT_REASON,), notices.find_waivers_without_reason),
    Check((rules.WAIVER_HIDES_NOTHING,), notices.find_waivers_of_nothing),
    Check((rules.STOP_SIGNS_MISSING,), notices.find_missing_stop_signs),
    Check(
        (rules.HANDS_ON_WITHOUT_CONSENT,),
        hands_on.find_hands_on_without_consent,
        reads_words=True,
        by_lesson=True,
    ),
    Check((rules.CURE_CLAIM,), claims.find_cure_claims, reads_words=True, by_lesson=True),
    Check(
        (rules.PUSH_THROUGH_PAIN,), claims.find_push_through_pain, reads_words=True, by_lesson=True
    ),
    Check((rules.ADAPT_MISSING,), notices.find_missing_adaptations),
    Check((rules.NOTICE_LOST,), notice_list.find_lost_notices),
    Check((rules.NOTICE_UNLISTED,), notice_list.find_unlisted_notices),
    Check((rules.WAIVER_REFUSED,), notices.find_refused_waivers),
    Check(
        (rules.HARD_WORDS, rules.VERY_HARD_WORDS),
        words_grade.find_hard_words,
        reads_words=True,
        by_lesson=True,
    ),
    Check(
        (rules.LONG_SENTENCE,), words_grade.find_long_sentences, reads_words=True, by_lesson=True
    ),
    Check((rules.LONG_CUE,), words_grade.find_long_cues, reads_words=True, by_lesson=True),
    Check(
        (rules.TERM_WITHOUT_ENTRY,),
        words_terms.find_terms_without_entry,
        reads_words=True,
        by_lesson=True,
    ),
    Check((rules.BLAME_OR_FEAR,), words_tone.find_blame_or_fear, reads_words=True, by_lesson=True),
    Check(
        (rules.SIDES_UNLIKE_MOVING,),
        words_sides.find_sides_unlike_moving,
        reads_words=True,
        by_lesson=True,
    ),
    Check(
        (rules.COACH_WORDS_FOR_CLIENTS,),
        words_terms.find_coach_words,
        reads_words=True,
        by_lesson=True,
    ),
    Check(
        (rules.FOREIGN_SPELLING,),
        words_spelling.find_foreign_spelling,
        reads_words=True,
        by_lesson=True,
    ),
    Check((rules.PROP_WITHOUT_STAND_IN,), props.find_props_without_stand_in),
    Check((rules.PROP_UNLISTED,), props.find_unlisted_props, by_lesson=True),
    Check((rules.PROP_UNUSED,), props.find_unused_props, by_lesson=True),
    Check((rules.PROP_OVER_SET,), props.find_props_over_set),
    Check((rules.JOINT_BEYOND_LIMIT,), figures.find_joints_beyond_limits, by_lesson=True),
    Check((rules.BODY_THROUGH_FLOOR,), figures.find_sunk_bodies, by_lesson=True),
    Check((rules.CONTACT_MISSED,), figures.find_missed_contacts, by_lesson=True),
    Check((rules.BREATHS_ALIKE,), figures.find_breaths_alike, by_lesson=True),
    Check((rules.FIGURE_UNLIKE_MOVING,), figures.find_limbs_unlike_moving, by_lesson=True),
    Check((rules.LOW_CONTRAST,), colours.find_low_contrast),
    Check((rules.LANGUAGE_UNSPOKEN,), languages.find_unspoken_languages),
    Check((rules.CHANGED_SINCE_RELEASE,), releases.find_changed_since_release, reads_words=True),
)
