from dataclasses import replace
from datetime import date, timedelta

import pytest

from builder.checks import notices
from builder.course.dose import Dose
from builder.course.lesson import Limb, Waiver
from builder.course.notice import Action, Review, Source
from builder.course.tempo import Tempo
from builder.course.trait import Trait
from builder.course.vocabulary import Effort, Position, Prop, PropUse

LEAD = Review("course lead", date(2026, 10, 1))
PRONE = Position("prone", "lying face down", "prone", 2, frozenset({"prone"}))
BALL = PropUse(Prop("ball", "soft ball", "a cushion", load=1), 1)


def found(check, course):
    return [str(finding) for finding in check(course)]


def waive(*ids, reason="the studio has chairs only", by="course lead"):
    return tuple(Waiver(name, reason, Review(by, LEAD.on)) for name in ids)


def change_notice(course, notice_id, **parts):
    return replace(
        course,
        notices=tuple(
            replace(notice, **parts) if notice.id == notice_id else notice
            for notice in course.notices
        ),
    )


def without(course, notice_id):
    kept = tuple(notice for notice in course.notices if notice.id != notice_id)
    return replace(course, notices=kept)


def test_small_course_is_clean(small_course):
    for check in (
        notices.find_traits_without_notice,
        notices.find_notices_without_lesson,
        notices.find_notices_past_review,
        notices.find_notices_without_source,
        notices.find_waivers_without_reason,
        notices.find_waivers_of_nothing,
        notices.find_missing_stop_signs,
        notices.find_missing_adaptations,
    ):
        assert found(check, small_course) == []


def test_a_deleted_notice_is_missed_wherever_it_belongs(small_course):
    assert found(notices.find_traits_without_notice, without(small_course, "holding")) == [
        "content/lessons/count/short-hold.md:7:8: N101 trait-without-notice: "
        '"breath-hold" (holding the breath) has no notice; write one with traits: [breath-hold].'
    ]
    findings = found(notices.find_traits_without_notice, without(small_course, "slow"))
    assert [line.split(":")[0].rpartition("/")[2] for line in findings] == [
        "plain-count.md",
        "long-out.md",
        "short-hold.md",
    ]


def test_a_notice_for_everything_is_no_notice_of_a_trait(small_course):
    course = change_notice(small_course, "holding", traits=frozenset(), everywhere=True)
    assert len(found(notices.find_traits_without_notice, course)) == 1


def test_a_trait_that_needs_no_notice_is_left_alone(small_course):
    course = without(small_course, "holding")
    traits = {**course.traits, "breath-hold": Trait("breath-hold", "a hold", needs_notice=False)}
    assert found(notices.find_traits_without_notice, replace(course, traits=traits)) == []


def test_waiving_the_only_notice_leaves_the_trait_bare(change_lesson, small_course):
    course = change_lesson("short-hold", waivers=waive("holding"))
    (line,) = found(notices.find_traits_without_notice, course)
    assert 'is left without its notice "holding"; take the waiver out' in line
    second = replace(small_course.notices[0], id="holding-too", traits=frozenset({"breath-hold"}))
    course = replace(course, notices=(*course.notices, second))
    assert found(notices.find_traits_without_notice, course) == []


@pytest.mark.parametrize(
    ("parts", "key"),
    [
        ({"position": PRONE}, "position"),
        ({"named_traits": frozenset({"bracing"})}, "traits"),
        ({"props": (BALL,)}, "props"),
    ],
)
def test_the_place_is_what_gives_the_trait(change_lesson, small_course, parts, key):
    positions = {**small_course.by_id["wide-ribs"].positions, "traits": (40, 9)}
    course = change_lesson("wide-ribs", positions=positions, **parts)
    (finding,) = notices.find_traits_without_notice(course)
    assert finding.place == course.by_id["wide-ribs"].at(key)


def test_a_notice_that_nothing_calls_for(small_course):
    course = change_notice(small_course, "holding", traits=frozenset({"prone"}))
    (line,) = found(notices.find_notices_without_lesson, course)
    assert line.startswith("content/notices/holding.md:4:9: N102")
    assert 'no lesson has the trait "prone"' in line
    broken = replace(course, unreadable=frozenset({"face-down"}))
    assert found(notices.find_notices_without_lesson, broken) == []


@pytest.mark.parametrize(("age_days", "alarms"), [(0, 0), (365, 0), (366, 1), (4000, 1)])
def test_a_notice_is_looked_over_once_a_year(small_course, age_days, alarms):
    review = Review("course lead", small_course.day - timedelta(days=age_days))
    course = change_notice(small_course, "floor", reviewed=review)
    assert len(found(notices.find_notices_past_review, course)) == alarms


def test_a_notice_that_nobody_looked_over(small_course):
    course = change_notice(small_course, "floor", reviewed=None)
    assert "nobody has looked it over" in found(notices.find_notices_past_review, course)[0]


@pytest.mark.parametrize(
    ("sources", "says"),
    [
        ((), "nothing says where this caution comes from"),
        ((Source("Paced breathing", "Szulczewski", None),), "no year"),
        ((Source("", "Szulczewski", 2019),), "no title"),
        ((Source("Paced breathing", "", None),), "no publisher and no year"),
        ((Source("", "", None, common_practice=True),), None),
        ((Source("Paced breathing", "Szulczewski", 2019),), None),
    ],
)
def test_a_notice_names_its_source(small_course, sources, says):
    findings = found(
        notices.find_notices_without_source, change_notice(small_course, "slow", sources=sources)
    )
    assert len(findings) == bool(says)
    assert all(says in line for line in findings)


@pytest.mark.parametrize(
    ("reason", "by", "alarms"),
    [
        ("taught in chairs only", "course lead", 0),
        ("", "course lead", 1),
        ("because", "course lead", 1),
        ("taught in chairs only", "", 1),
        ("taught in chairs only", "nobody", 1),
        (" ", "", 2),
    ],
)
def test_a_waiver_says_why_and_by_whom(change_lesson, reason, by, alarms):
    course = change_lesson(waivers=waive("floor", reason=reason, by=by))
    assert len(found(notices.find_waivers_without_reason, course)) == alarms


@pytest.mark.parametrize(
    ("notice_id", "says"),
    [
        ("floor", None),
        ("general", None),
        ("holding", 'nothing here calls for "holding"'),
        ("flor", 'no notice has the id "flor"'),
    ],
)
def test_a_waiver_hides_something(change_lesson, notice_id, says):
    findings = found(notices.find_waivers_of_nothing, change_lesson(waivers=waive(notice_id)))
    assert len(findings) == bool(says)
    assert all(says in line for line in findings)


@pytest.mark.parametrize(
    ("parts", "says"),
    [
        ({"tempo": Tempo.parse("4-2-4-1")}, "holding the breath"),
        ({"position": PRONE}, "lying face down"),
        ({"props": (BALL,)}, "working against a load"),
        ({"effort": Effort("light", 2.3, "2024", "02101", rank=1)}, "working against a load"),
        ({"dose": Dose(2, 6, 30)}, None),
    ],
)
def test_harder_things_say_when_to_stop(change_lesson, parts, says):
    course = change_lesson("long-out", **parts)
    findings = found(notices.find_missing_stop_signs, course)
    assert len(findings) == bool(says)
    assert all(says in line for line in findings)
    course = change_lesson("long-out", course, stop_if=("You feel dizzy",))
    assert found(notices.find_missing_stop_signs, course) == []


@pytest.mark.parametrize(
    ("action", "adapt", "alarms"),
    [
        (Action.ADAPT, "", 1),
        (Action.ADAPT, "  ", 1),
        (Action.ADAPT, "Do it sitting.", 0),
        (Action.STOP, "", 0),
        (Action.NOTE, "", 0),
    ],
)
def test_adapting_says_how(small_course, action, adapt, alarms):
    course = change_notice(small_course, "on-the-back", action=action, adapt=adapt)
    assert len(found(notices.find_missing_adaptations, course)) == alarms


@pytest.mark.parametrize(
    ("everywhere", "action", "says"),
    [
        (True, Action.NOTE, ['"floor" stands on every lesson, and no lesson may leave it out']),
        (False, Action.STOP, ['"floor" tells people to stop, and no lesson may leave it out']),
        (False, Action.ADAPT, []),
    ],
)
def test_what_holds_for_everybody_may_not_be_waived(
    change_lesson, small_course, everywhere, action, says
):
    course = change_notice(small_course, "floor", everywhere=everywhere, action=action)
    course = change_lesson(course=course, waivers=waive("floor", "gone"))
    found = notices.find_refused_waivers(course)
    assert [finding.fact for finding in found] == says


def test_a_trait_that_needs_no_notice_hides_no_other(change_lesson):
    """Traits are looked at by name: one that needs nothing comes first here."""
    course = change_lesson("short-hold", named_traits=frozenset({"a-mood"}))
    traits = {**course.traits, "a-mood": Trait("a-mood", "a mood", needs_notice=False)}
    course = without(replace(course, traits=traits), "holding")
    (line,) = found(notices.find_traits_without_notice, course)
    assert '"breath-hold"' in line


def test_a_waiver_that_hides_something_hides_no_other(change_lesson):
    course = change_lesson(waivers=waive("floor", "holding", "flor"))
    lines = found(notices.find_waivers_of_nothing, course)
    assert [line.split('"')[1] for line in lines] == ["holding", "flor"]


def test_two_words_are_a_reason(change_lesson):
    course = change_lesson(waivers=waive("floor", reason="chairs only"))
    assert found(notices.find_waivers_without_reason, course) == []


def test_all_reasons_for_stop_signs_are_told_at_their_key(change_lesson, small_course):
    positions = {**small_course.by_id["long-out"].positions, "stop_if": (30, 1)}
    course = change_lesson("long-out", position=PRONE, props=(BALL,), positions=positions)
    (finding,) = notices.find_missing_stop_signs(course)
    assert finding.fact.startswith("lying face down and working against a load, and no word")
    assert finding.place.line == 30


def test_a_notice_without_a_source_is_told_at_its_key(small_course):
    course = change_notice(small_course, "floor", sources=())
    (finding,) = notices.find_notices_without_source(course)
    notice = next(notice for notice in course.notices if notice.id == "floor")
    assert finding.place == notice.at("sources")


def test_getting_to_the_floor_is_told_at_the_position(small_course):
    course = without(small_course, "floor")
    places = [finding.place for finding in notices.find_traits_without_notice(course)]
    assert places == [lesson.at("position") for lesson in course.lessons]


def test_moving_limbs_are_told_where_they_are_named(change_lesson, small_course):
    positions = {**small_course.by_id["wide-ribs"].positions, "moving": (41, 3)}
    course = change_lesson("wide-ribs", moving=(Limb.LEFT_ARM,), positions=positions)
    traits = {**course.traits, "moving-limbs": Trait("moving-limbs", "moving limbs")}
    course = replace(course, traits=traits)
    (finding,) = notices.find_traits_without_notice(course)
    assert ("moving-limbs" in finding.fact, finding.place.line) == (True, 41)
