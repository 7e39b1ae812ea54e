"""The starter course: its strands, its order across them, and the words of every lesson.

The order checked here is common practice in the trade, with no source: a count before a hold,
a still hold before a face-down one, single limbs before two, a brace before any limb moves.
"""

from collections import defaultdict
from pathlib import Path

import pytest

from builder.checks.texts import lesson_texts
from builder.course.course import Course
from builder.course.graph import find_before
from builder.course.lesson import Lesson
from builder.reading.course_folder import read_course
from builder.sums.reading_grade import find_words, split_sentences

ROOT = Path(__file__).parent.parent
STRANDS = {
    "first-checks": 5,
    "breath": 7,
    "brace": 4,
    "tempo": 5,
    "load": 9,
    "stretch": 6,
    "front-line": 7,
    "back-line": 3,
    "all-fours": 6,
    "everyday": 6,
}
DEAD_BUGS = ("ball-on-belly", "one-limb", "diagonal", "roll", "band-press-out", "band-one-leg")
COMES_AFTER = [
    ("short-box", "even-count"),
    ("box", "even-count"),
    ("crocodile", "all-round-breath"),
    ("crocodile-box", "box"),
    ("crocodile-tuck", "tail-tuck"),
    *((name, before) for name in DEAD_BUGS for before in ("brace-and-breathe", "even-count")),
    ("diagonal", "one-limb"),
    ("one-limb", "ball-squeeze"),
    ("roll", "diagonal"),
    *(("bird-dog", before) for before in ("find-neutral", "arm-lift", "leg-press-back")),
    *((name, "standing-breath") for name in ("floor-up-and-down", "sit-to-stand", "hip-hinge")),
    *((name, "full-exhale") for name in ("floor-up-and-down", "sit-to-stand", "carry-and-walk")),
]
MOST_LESSONS = 2
SENTENCE_WORDS = 4
"""Shorter scraps, such as the name of a lesson, are no sentence."""


@pytest.fixture(scope="module")
def course() -> Course:
    course = read_course(ROOT).course
    assert course is not None
    return course


def test_ten_strands_hold_58_lessons(course: Course) -> None:
    assert {name: len(course.lessons_of(name)) for name in course.vocabulary.strands} == STRANDS
    assert len(course.lessons) == 58


@pytest.mark.parametrize(("lesson", "before"), COMES_AFTER)
def test_one_demand_comes_after_another(course: Course, lesson: str, before: str) -> None:
    assert before in find_before(course.graph, lesson)


def test_moving_drills_keep_to_the_even_count_or_shorter(course: Course) -> None:
    for lesson in course.lessons:
        tempo = lesson.drill.tempo
        if lesson.drill.moving and tempo:
            assert max(tempo.phases) <= 4, lesson.id
            assert tempo.cycle_seconds <= 10, lesson.id


def test_holds_are_for_still_lessons(course: Course) -> None:
    held = {
        lesson.id
        for lesson in course.lessons
        if lesson.drill.tempo and lesson.drill.tempo.has_breath_hold
    }
    assert held == {"short-box", "box", "crocodile-box"}
    assert not any(course.by_id[name].drill.moving for name in held)


def test_every_lesson_is_complete(course: Course) -> None:
    gaps = {lesson.id: find_gaps(lesson) for lesson in course.lessons}
    assert {name: missing for name, missing in gaps.items() if missing} == {}


def test_no_sentence_stands_in_more_than_two_lessons(course: Course) -> None:
    lessons: defaultdict[str, set[str]] = defaultdict(set)
    for lesson in course.lessons:
        for text in lesson_texts(lesson):
            for sentence in split_sentences(text.words):
                words = [word.lower() for word in find_words(sentence)]
                if len(words) >= SENTENCE_WORDS:
                    lessons[" ".join(words)].add(lesson.id)
    common = {text: names for text, names in lessons.items() if len(names) > MOST_LESSONS}
    assert common == {}


def find_gaps(lesson: Lesson) -> list[str]:
    """Return what a lesson of the starter course lacks."""
    words, drill = lesson.words, lesson.drill
    sentences = split_sentences(" ".join(passage.text for passage in words.set_up))
    aids = [use.prop.title.split()[-1] for use in drill.props]
    hard = " ".join(passage.text for passage in words.if_hard)
    names_an_easier_way = bool(lesson.easier) or any(aid in hard for aid in aids)
    wanted = {
        "set up": 1 <= len(sentences) <= 3,
        "steps": 3 <= len(words.steps) <= 5,
        "cues": words.cues is not None,
        "watch for": 2 <= len(words.watch_for) <= 3,
        "what to do": all(":" in text for text in words.watch_for),
        "ready when": bool(words.ready_when),
        "stop if": bool(words.stop_if),
        "if it is hard": bool(words.if_hard),
        "easier": names_an_easier_way or lesson.strand.aim == "observe",
        "coach notes": len(words.coach_notes) >= 6,
        "measures": bool(lesson.measures) or lesson.strand.aim == "observe",
        "stand-ins": all(use.prop.stand_in for use in drill.props),
    }
    return [name for name, holds in wanted.items() if not holds]
