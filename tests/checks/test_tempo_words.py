from dataclasses import replace

import pytest

from builder.checks.tempo_words import find_tempo_unlike_words
from builder.course.lesson import Cues, Passage
from builder.course.tempo import Tempo

CUES = Cues("Ribs widen", "Ribs fall")


def found(course):
    return [str(finding) for finding in find_tempo_unlike_words(course)]


def say(change_lesson, step, tempo="4-1-6-1", **parts):
    return change_lesson(
        "long-out",
        steps=(Passage(step, 22),),
        cues=CUES,
        tempo=None if tempo == "natural" else Tempo.parse(tempo),
        **parts,
    )


@pytest.mark.parametrize(
    ("step", "says"),
    [
        ("Breathe in for four and out for six.", None),
        ("Breathe in for five.", '"Breathe in for five", but the inhale of 4-1-6-1 takes 4 s'),
        ("Breathe out for 4.", '"Breathe out for 4", but the exhale of 4-1-6-1 takes 6 s'),
        ("Pause for one.", None),
        ("Hold for four.", '"Hold for four", but the hold of 4-1-6-1 takes 1 s'),
        ("Breathe out for five to six counts.", None),
        ("Breathe out for seven to eight counts.", "takes 6 s"),
    ],
)
def test_words_agree_with_the_tempo(change_lesson, step, says):
    findings = found(say(change_lesson, step))
    assert len(findings) == bool(says)
    assert all(says in line and ":22:1: T107" in line for line in findings)


def test_each_hold_is_held_against_its_own_phase(change_lesson):
    step = "Breathe in for 4, hold for 1. Breathe out for 6, hold for 3."
    findings = found(say(change_lesson, step, "4-3-6-1"))
    assert ['"hold for 1", but the hold of 4-3-6-1 takes 3 s' in line for line in findings] == [
        True,
        False,
    ]
    assert found(say(change_lesson, "Hold for 3, and later hold for 1.", "4-3-6-1")) == []


def test_cues_are_read_too(change_lesson):
    cues = Cues("Widen for four", "Let go for eight")
    findings = found(change_lesson("long-out", cues=cues))
    assert findings == [
        "content/lessons/count/long-out.md:14:37: T107 tempo-unlike-words: the words say "
        '"Let go for eight", but the exhale of 4-1-6-1 takes 6 s; '
        "change the words or the tempo so that both say the same."
    ]


@pytest.mark.parametrize(
    ("step", "traits", "alarms"),
    [
        ("Breathe in for four.", (), 1),
        ("Pause for one.", (), 0),
        ("Hold for three.", (), 1),
        ("Hold for three.", ("breath-hold",), 0),
        ("Breathe in when you like.", (), 0),
    ],
)
def test_a_count_in_words_alone_is_found(change_lesson, step, traits, alarms):
    course = say(change_lesson, step, "natural", named_traits=frozenset(traits))
    findings = found(course)
    assert len(findings) == alarms
    assert all('but the tempo is "natural"' in line for line in findings)


def test_an_easier_way_may_name_another_count(change_lesson):
    easier = (Passage("Breathe in for three and out for four.", 26),)
    assert found(change_lesson("long-out", if_hard=easier)) == []


def test_a_ladder_may_name_several_counts(change_lesson):
    step = "Breathe in for four, breathe out for seven."
    assert len(found(say(change_lesson, step))) == 1
    assert found(say(change_lesson, step, ladder=(12, 13))) == []


def test_no_alarm_on_a_lesson_without_cues(change_lesson, small_course):
    words = replace(small_course.by_id["long-out"].words, cues=None)
    lessons = tuple(
        replace(lesson, words=words) if lesson.id == "long-out" else lesson
        for lesson in small_course.lessons
    )
    assert found(replace(small_course, lessons=lessons)) == []


def test_a_lesson_with_a_ladder_hides_no_other(change_lesson):
    course = change_lesson("hand-on-belly", ladder=(6.0, 7.0))
    course = change_lesson("long-out", course, steps=(Passage("Breathe in for five.", 22),))
    assert ["long-out" in line for line in found(course)] == [True]
