from dataclasses import replace

import pytest

from builder.checks import dose
from builder.course.dose import Dose, Sides, TimedDose
from builder.course.tempo import Tempo
from builder.course.vocabulary import Effort, Prop, PropUse

BALL = PropUse(Prop("ball", "soft ball", "a cushion", load=1), 1)
TOWEL = PropUse(Prop("towel", "small towel", "a jumper"), 1)
LIGHT = Effort("light", 2.3, "Compendium 2024", "02101", rank=1)


def found(check, course):
    return [str(finding) for finding in check(course)]


@pytest.mark.parametrize(
    ("breaths", "sides", "alarms"),
    [
        (6, Sides.ALTERNATE, 0),
        (7, Sides.ALTERNATE, 1),
        (9, Sides.ALTERNATE, 1),
        (1, Sides.ALTERNATE, 1),
        (7, Sides.EACH, 0),
        (7, Sides.TOGETHER, 0),
    ],
)
def test_sides_in_turn_take_an_even_number(change_lesson, breaths, sides, alarms):
    findings = found(dose.find_odd_alternations, change_lesson(dose=Dose(2, breaths, 30, sides)))
    assert len(findings) == alarms
    assert all(f"give {breaths + 1} breaths" in line for line in findings)


@pytest.mark.parametrize(
    ("amount", "parts", "alarms"),
    [
        (Dose(2, 6, 0), {"props": (BALL,)}, 1),
        (Dose(2, 6, 1), {"props": (BALL,)}, 0),
        (Dose(1, 6, 0), {"props": (BALL,)}, 0),
        (Dose(2, 6, 0), {"props": (TOWEL,)}, 0),
        (Dose(2, 6, 0), {"effort": LIGHT}, 1),
        (Dose(2, 6, 0), {"named_traits": frozenset({"load"})}, 1),
        (Dose(2, 6, 0), {"named_traits": frozenset({"bracing"})}, 0),
        (Dose(1, 6, 0, Sides.EACH), {"props": (BALL,)}, 0),  # one side rests as the other works
        (TimedDose(3), {"props": (BALL,)}, 0),
    ],
)
def test_loaded_sets_have_a_rest_between(change_lesson, amount, parts, alarms):
    course = change_lesson(dose=amount, **parts)
    assert len(found(dose.find_missing_rests, course)) == alarms


@pytest.mark.parametrize(
    ("amount", "alarms"),
    [
        (Dose(1, 57), 0),  # 30 s set-up + 570 s = 600 s, the 10 minutes of the strand
        (Dose(1, 58), 1),
        (Dose(2, 28, 10), 0),  # 30 + 560 + 10
        (Dose(2, 28, 11), 1),
        (TimedDose(10), 0),
        (TimedDose(11), 1),
    ],
)
def test_lesson_stays_within_the_strand_s_minutes(change_lesson, amount, alarms):
    course = change_lesson(dose=amount, tempo=Tempo.parse("4-1-4-1"))
    assert len(found(dose.find_long_lessons, course)) == alarms


@pytest.mark.parametrize(
    ("aim", "days", "says"),
    [
        # Resistance and control: 2 to 3 days a week, Garber et al., MSSE 43:1334, 2011.
        ("work", 1, "too few"),
        ("work", 2, None),
        ("work", 3, None),
        ("work", 4, "so many that no day lies between"),
        ("work", None, None),
        ("calm", 7, None),
        ("observe", 1, None),
    ],
)
def test_work_is_practised_with_a_day_between(small_course, aim, days, says):
    course = with_strand(small_course, aim=aim, days_a_week=days)
    findings = found(dose.find_practice_days_out_of_range, course)
    assert len(findings) == bool(says)
    assert all(says in line and "course.yml:9:" in line for line in findings)


def test_a_load_makes_work_of_any_strand(small_course, change_lesson):
    course = with_strand(small_course, aim="calm", days_a_week=6)
    assert found(dose.find_practice_days_out_of_range, course) == []
    loaded = change_lesson("wide-ribs", course, props=(BALL,))
    assert len(found(dose.find_practice_days_out_of_range, loaded)) == 1


@pytest.mark.parametrize(
    ("ladder", "steep"),
    [
        # Load grows by 2 to 10 % at once: Ratamess et al., MSSE 41:687, 2009; for breath, ours.
        ((), []),
        ((10,), []),
        ((10, 11, 12.1), []),
        ((10, 11.5), ["15%"]),
        ((12, 13, 14, 15), []),
        ((10, 12, 13, 16), ["20%", "23%"]),
        ((12, 10), []),
        ((0.1, 0.11), []),  # a tenth more, though floats say a hair above
    ],
)
def test_ladder_climbs_by_a_tenth_at_most(change_lesson, ladder, steep):
    findings = found(dose.find_steep_ladders, change_lesson(ladder=ladder))
    assert len(findings) == len(steep)
    assert all(share in line for share, line in zip(steep, findings, strict=True))


def with_strand(course, **parts):
    vocabulary = course.vocabulary
    strand = replace(vocabulary.strands["breath"], **parts)
    strands = {**vocabulary.strands, "breath": strand}
    lessons = tuple(
        replace(lesson, strand=strand) if lesson.strand.id == "breath" else lesson
        for lesson in course.lessons
    )
    return replace(course, vocabulary=replace(vocabulary, strands=strands), lessons=lessons)
