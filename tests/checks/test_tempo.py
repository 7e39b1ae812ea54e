from dataclasses import replace

import pytest

from builder.checks import tempo
from builder.course.dose import Dose, TimedDose
from builder.course.lesson import Limb
from builder.course.limits import Limits
from builder.course.tempo import Tempo


def found(check, course):
    return [str(finding) for finding in check(course)]


def limit(course, **limits):
    return replace(course, settings=replace(course.settings, limits=Limits(**limits)))


@pytest.mark.parametrize(
    ("count", "says"),
    [
        ("2-0-2-0", None),  # 4 s, the lower edge
        ("1.5-0-2-0", "takes 3.5 s, under the 4 s of this course; lengthen a phase"),
        ("5-5-5-5", None),  # 20 s, the upper edge
        ("5-5-5.5-5", "takes 20.5 s, over the 20 s of this course; shorten a phase"),
        ("natural", None),
    ],
)
def test_cycle_stays_in_the_band(change_lesson, count, says):
    course = change_lesson(tempo=None if count == "natural" else Tempo.parse(count))
    findings = found(tempo.find_cycles_out_of_band, course)
    assert len(findings) == bool(says)
    assert all(says in line for line in findings)


def test_a_studio_may_tighten_the_band(change_lesson):
    course = limit(change_lesson(), cycle_max_seconds=10)
    findings = found(tempo.find_cycles_out_of_band, course)
    assert [line.split(":")[0].rpartition("/")[2] for line in findings] == [
        "long-out.md",  # 12 s
        "short-hold.md",  # 12 s
    ]


@pytest.mark.parametrize(
    ("count", "aim", "alarms"),
    [
        ("4-1-4-1", "calm", 0),
        ("4.5-1-4-1", "calm", 1),
        ("4-1-4.5-1", "calm", 0),
        ("6-0-3-0", "work", 0),
        ("6-0-3-0", "observe", 0),
    ],
)
def test_calm_drill_never_breathes_in_longer(change_lesson, small_course, count, aim, alarms):
    strand = replace(small_course.vocabulary.strands["count"], aim=aim)
    course = change_lesson(tempo=Tempo.parse(count), strand=strand)
    assert len(found(tempo.find_long_inhales, course)) == alarms


def test_long_inhale_stands_at_the_tempo(change_lesson):
    course = change_lesson(tempo=Tempo.parse("6-1-4-1"))
    assert found(tempo.find_long_inhales, course) == [
        "content/lessons/count/plain-count.md:7:8: T102 long-inhale: the inhale of 6 s is longer "
        "than the exhale of 4 s in a calming drill; make the exhale at least as long as the inhale."
    ]


def test_hold_after_a_plain_count_is_fine(small_course):
    assert found(tempo.find_holds_before_count, small_course) == []


def test_plain_count_may_lie_several_lessons_back(change_lesson):
    course = change_lesson("long-out", tempo=Tempo.parse("4-3-4-0"))
    course = change_lesson("short-hold", course, builds_on=("long-out",))
    assert found(tempo.find_holds_before_count, course) == []


@pytest.mark.parametrize(
    ("count", "alarms"), [("4-1-4-1", 0), ("4-1.5-4-1", 1), ("4-1-4-2", 1), ("natural", 0)]
)
def test_hold_on_a_first_lesson_is_found(change_lesson, count, alarms):
    count = None if count == "natural" else Tempo.parse(count)
    course = change_lesson("hand-on-belly", tempo=count)
    assert len(found(tempo.find_holds_before_count, course)) == alarms


def test_own_plain_half_does_not_count_as_learned(change_lesson):
    course = change_lesson("plain-count", tempo=Tempo.parse("4-4-4-4"))
    findings = found(tempo.find_holds_before_count, course)
    assert ["plain-count" in line for line in findings] == [True, False]
    assert "short-hold" in findings[1]


def test_timed_hold_without_a_count_needs_the_count_too(change_lesson):
    parts = {"named_traits": frozenset({"breath-hold"})}
    findings = found(tempo.find_holds_before_count, change_lesson("wide-ribs", **parts))
    assert len(findings) == 1
    assert "a timed hold comes before any plain count" in findings[0]


def test_faults_of_a_tempo_stand_where_they_are_written(change_lesson, small_course):
    keys = {"traits": (40, 1), "moving": (41, 1), "tempo": (42, 1), "dose": (43, 1)}
    timed = {"named_traits": frozenset({"breath-hold"}), "moving": (Limb.LEFT_LEG,)}
    course = change_lesson("wide-ribs", positions=keys, **timed)
    boxed = {"tempo": Tempo.parse("4-4-4-4"), "dose": Dose(1, 30), "moving": (Limb.LEFT_LEG,)}
    course = change_lesson("plain-count", course, positions=keys, **boxed)
    checks = (
        (tempo.find_holds_before_count, "wide-ribs", 40),
        (tempo.find_holds_before_count, "plain-count", 42),
        (tempo.find_boxes_while_moving, "plain-count", 41),
        (tempo.find_long_boxes, "plain-count", 43),
    )
    for check, name, line in checks:
        found_here = [f for f in check(course) if f.place.path == course.by_id[name].path]
        assert [finding.place.line for finding in found_here] == [line]
    slow = change_lesson(positions=keys, tempo=Tempo.parse("4-1-6-1"), moving=(Limb.LEFT_LEG,))
    (up,) = tempo.find_limbs_up_too_long(slow)
    assert up.place.line == 42


def test_what_comes_together_with_a_moving_limb_is_named(change_lesson):
    parts = {"moving": (Limb.LEFT_ARM, Limb.RIGHT_LEG)}
    box = change_lesson("long-out", tempo=Tempo.parse("4-4-4-4"), **parts)
    (line,) = found(tempo.find_boxes_while_moving, box)
    assert "the box tempo 4-4-4-4 comes together with a moving left-arm and right-leg" in line
    assert line.endswith("keep still, or use 4-1-4-1 or shorter.")


def test_measured_hold_of_a_check_needs_no_count(change_lesson, small_course):
    strand = replace(small_course.vocabulary.strands["breath"], aim="observe")
    parts = {"named_traits": frozenset({"breath-hold"}), "strand": strand}
    assert found(tempo.find_holds_before_count, change_lesson("wide-ribs", **parts)) == []


def test_nothing_is_said_of_a_hold_behind_an_unreadable_lesson(change_lesson):
    course = change_lesson("short-hold", builds_on=("broken",))
    assert len(found(tempo.find_holds_before_count, course)) == 1
    course = replace(course, unreadable=frozenset({"broken"}))
    assert found(tempo.find_holds_before_count, course) == []


@pytest.mark.parametrize(("count", "alarms"), [("4-6-4-6", 0), ("4-6.5-4-0", 1), ("4-0-4-7", 1)])
def test_hold_stays_under_the_limit(change_lesson, count, alarms):
    course = change_lesson(tempo=Tempo.parse(count))
    assert len(found(tempo.find_long_holds, course)) == alarms


@pytest.mark.parametrize(
    ("count", "moving", "alarms"),
    [
        ("5-1-5-1", (Limb.LEFT_LEG,), 0),
        ("4-1-5.5-1", (Limb.LEFT_LEG,), 1),
        ("4-6-4-1", (Limb.RIGHT_ARM, Limb.TRUNK), 1),
        ("4-1-6-1", (Limb.TRUNK,), 0),  # a trunk that rolls isn't in the air
        ("4-1-6-1", (), 0),
        ("natural", (Limb.LEFT_LEG,), 0),
    ],
)
def test_limbs_come_down_in_time(change_lesson, count, moving, alarms):
    count = None if count == "natural" else Tempo.parse(count)
    course = change_lesson(tempo=count, moving=moving)
    assert len(found(tempo.find_limbs_up_too_long, course)) == alarms


@pytest.mark.parametrize(
    ("count", "moving", "alarms"),
    [
        ("4-4-4-4", (), 0),
        ("4-4-4-4", (Limb.LEFT_ARM,), 1),
        ("1-1-1-1", (Limb.TRUNK,), 1),  # equal phases, though no hold is over a pause
        ("4-1-4-1", (Limb.LEFT_ARM,), 0),
        ("4-2-4-1", (Limb.LEFT_ARM,), 1),
    ],
)
def test_boxes_and_holds_keep_still(change_lesson, count, moving, alarms):
    course = change_lesson("long-out", tempo=Tempo.parse(count), moving=moving)
    assert len(found(tempo.find_boxes_while_moving, course)) == alarms


def test_timed_hold_keeps_still(change_lesson):
    parts = {"named_traits": frozenset({"breath-hold"}), "moving": (Limb.LEFT_LEG,)}
    findings = found(tempo.find_boxes_while_moving, change_lesson("wide-ribs", **parts))
    assert "a timed hold comes together with a moving left-leg" in findings[0]


@pytest.mark.parametrize(
    ("count", "dose", "alarms"),
    [
        # 5 minutes a day were studied: Balban et al., Cell Reports Medicine 4:100895, 2023.
        ("3-3-3-3", Dose(1, 25), 0),  # 300 s
        ("3-3-3-3", Dose(1, 26), 1),  # 312 s
        ("4-4-4-4", Dose(1, 19), 1),  # 304 s
        ("3-3-3-3", Dose(2, 12, 30), 1),  # 318 s with the rest
        ("3-3-3-3", TimedDose(5), 0),
        ("3-3-3-3", TimedDose(6), 1),
        ("4-1-4-1", TimedDose(6), 0),
    ],
)
def test_box_ends_after_five_minutes(change_lesson, count, dose, alarms):
    course = change_lesson("short-hold", tempo=Tempo.parse(count), dose=dose)
    assert len(found(tempo.find_long_boxes, course)) == alarms
