from dataclasses import replace

import pytest

from builder.checks.one_sided import find_missing_sides
from builder.course.dose import Dose, Sides, TimedDose
from builder.course.lesson import Limb, Passage
from builder.course.vocabulary import Position

LA, RA, LL, RL, TRUNK = Limb
TOGETHER = Dose(2, 6, 30)
SUPINE = Position("supine", "lying on the back", "supine", 0)


def found(course):
    return [str(finding) for finding in find_missing_sides(course)]


@pytest.mark.parametrize(
    ("moving", "alarms"),
    [
        ((), 0),
        ((LA,), 1),
        ((RL,), 1),
        ((LA, RA), 0),
        ((LL, RL, TRUNK), 0),
        ((LA, RL), 1),  # the other diagonal is still to come
        ((LA, RA, LL, RL), 0),
        ((LA, RA, LL), 1),
        ((TRUNK,), 0),
    ],
)
def test_limbs_of_one_side(change_lesson, moving, alarms):
    assert len(found(change_lesson(moving=moving, dose=TOGETHER))) == alarms


@pytest.mark.parametrize("sides", [Sides.EACH, Sides.ALTERNATE])
def test_a_dose_with_sides_settles_it(change_lesson, sides):
    position = Position("half-kneeling", "half-kneeling", "", 3)
    course = change_lesson(moving=(LA,), position=position, dose=Dose(2, 6, 30, sides))
    assert found(course) == []


@pytest.mark.parametrize(
    ("position", "alarms"),
    [
        (Position("side-lying", "lying on the side", "side-lying", 1), 1),
        (Position("flank", "lying on the side", "", 1), 1),
        (Position("half-kneeling", "half-kneeling", "", 3), 1),
        (Position("stork", "standing on one leg", "", 3), 1),
        (Position("kneeling", "kneeling", "", 2), 0),
        (Position("sitting", "sitting", "", 1), 0),
        (SUPINE, 0),
    ],
)
def test_positions_with_two_sides(change_lesson, position, alarms):
    assert len(found(change_lesson(position=position))) == alarms


@pytest.mark.parametrize(
    ("steps", "alarms"),
    [
        (["Lift your left knee."], 1),
        (["Slide one foot along the floor."], 1),
        (["Bring the right arm up."], 1),
        (["Lift your left knee.", "Put it down, then lift the right knee."], 0),
        (["Slide one foot out, then the other."], 0),
        (["Lift one leg, and swap after six breaths."], 0),
        (["Rest one hand on your belly."], 0),
        (["Do this right away, on the right spot."], 0),
        (["Let the left-over air go."], 0),
        (["Both sides widen."], 0),
    ],
)
def test_words_of_one_side(change_lesson, steps, alarms):
    passages = tuple(Passage(text, line) for line, text in enumerate(steps, start=21))
    findings = found(change_lesson(steps=passages))
    assert len(findings) == alarms
    assert all(":21:1: S101" in line for line in findings)


def test_minutes_need_the_other_side_in_words(change_lesson):
    position = Position("side-lying", "lying on the side", "side-lying", 1)
    course = change_lesson(position=position, dose=TimedDose(4))
    assert "count sets and breaths with their sides" in found(course)[0]
    course = change_lesson(
        "plain-count", course, steps=(Passage("Change sides after two minutes.", 21),)
    )
    assert found(course) == []


def test_a_course_of_another_subject_is_held_to_it_too(change_lesson, small_course):
    lesson = replace(small_course.by_id["plain-count"], title="Sing on one foot")
    course = change_lesson(title=lesson.title)
    assert 'the words name "one foot" only' in found(course)[0]


def test_a_lesson_with_sides_hides_no_other(change_lesson):
    course = change_lesson("plain-count", dose=Dose(2, 6, 30, Sides.EACH))
    for name in ("hand-on-belly", "short-hold"):
        course = change_lesson(name, course, moving=(Limb.LEFT_LEG,))
    paths = [finding.place.path for finding in find_missing_sides(course)]
    assert paths == [course.by_id[name].path for name in ("hand-on-belly", "short-hold")]
