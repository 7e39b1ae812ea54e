from dataclasses import replace

import pytest

from builder.checks.claims import (
    find_claims,
    find_cure_claims,
    find_pressure,
    find_push_through_pain,
)
from builder.course.lesson import Passage


@pytest.mark.parametrize(
    "text",
    [
        "This breath treats asthma.",
        "Box breathing cures back pain.",
        "It can cure your snoring.",
        "A sure cure for a bad night.",
        "Breathing heals the body.",
        "This lesson will fix your posture.",
        "Fixes bad backs in a week.",
        "The hand check will diagnose your breathing.",
        "Results guaranteed.",
        "We guarantee a flat belly.",
        "A natural treatment for anxiety.",
        "Gets rid of back pain.",
        "Slow breaths lower your blood pressure.",
        "Clinically proven to calm.",
        "It is no magic, it cures migraines.",
        "It doesn't only relax you, it treats the cause.",
        "Pain treated with this drill stays away.",
        "It's not just rest: it heals your lungs.",
        "Prevents injuries.",
        "Doctors know that breathing cures asthma.",
    ],
)
def test_claims_are_found(text):
    assert find_claims(text)


@pytest.mark.parametrize(
    "text",
    [
        "This is general exercise, not medical advice.",
        "The course makes no diagnosis and offers no treatment.",
        "It can't treat, cure or heal anything.",
        "Ask the clinician who treats you.",
        "Ask whoever treats your back.",
        "Your doctor may diagnose asthma.",
        "If you were diagnosed with asthma, ask first.",
        "High blood pressure, treated or not.",
        "Treat burning in the chest as a stop sign.",
        "If you aren't sure, treat it as a stop sign.",
        "Fix your eyes on one spot.",
        "Fix the band to the door.",
        "Keep a fixed count.",
        "Wait until the wound has healed.",
        "Take your medicine as agreed; breathing goes beside your treatment.",
        "Nothing here is guaranteed.",
        "Some tablets lower blood pressure.",
        "A secure seat, a curved back, a health form.",
        "There is no cure for a bad mood here.",
        "NICE advises that training for symptoms is supervised.",
    ],
)
def test_no_alarm_on_honest_words(text):
    assert find_claims(text) == ()


@pytest.mark.parametrize(
    "text",
    [
        "Push through the pain.",
        "Breathe through any discomfort.",
        "No pain, no gain!",
        "No pain no gain",
        "Ignore the dizziness.",
        "Ignore your stop signs for now.",
        "Mild dizziness is normal at first.",
        "It should hurt a little.",
        "Keep going even if it hurts.",
        "Carry on though you feel dizzy.",
        "Don't stop when you feel pain.",
        "Stretch until it hurts.",
        "Grit your teeth and hold.",
        "If it hurts, keep going.",
        "Work past the ache.",
        "Feel the burn.",
    ],
)
def test_pressure_is_found(text):
    assert find_pressure(text)


@pytest.mark.parametrize(
    "text",
    [
        "Never push through pain.",
        "Don't ignore the pain.",
        "You should not hurt.",
        "Nothing should hurt.",
        "Stop before it hurts.",
        "Stop if you feel dizzy.",
        "If it hurts, stop.",
        "Pain is not normal here.",
        "Pain, dizziness, tingling: stop.",
        "We don't believe in no pain, no gain.",
        "Breathe through the nose.",
        "Push the floor away and breathe out.",
        "Keep going until the set ends.",
        "If you want more air, take it.",
        "Your low back or hips pinch or hurt",
        "Pain anywhere, or cramp that stays.",
    ],
)
def test_no_alarm_on_careful_words(text):
    assert find_pressure(text) == ()


def test_every_text_of_a_course_is_read(small_course, change_lesson):
    assert list(find_cure_claims(small_course)) == []
    assert list(find_push_through_pain(small_course)) == []
    claim = "Breathing cures asthma."
    course = change_lesson(
        title=claim,
        coach_notes=(Passage(claim, 40),),
        ready_when=(claim,),
    )
    settings = replace(course.settings, summary=claim)
    notices = tuple(replace(notice, long=f"One.\n\n{claim}") for notice in course.notices[:1])
    course = replace(course, settings=settings, notices=notices, glossary={"Breath": claim})
    assert [str(finding.place) for finding in find_cure_claims(course)] == [
        "content/course.yml:2:10",
        "content/lessons/count/plain-count.md:2:8",
        "content/lessons/count/plain-count.md:14:14",
        "content/lessons/count/plain-count.md:40:1",
        "content/notices/floor.md:11:1",
        "content/glossary.md:1:1",
    ]


def test_finding_quotes_the_author(change_lesson):
    course = change_lesson("plain-count", steps=(Passage("Breathe. Push through the PAIN!", 21),))
    assert [str(finding) for finding in find_push_through_pain(course)] == [
        "content/lessons/count/plain-count.md:21:1: N110 push-through-pain: "
        '"Push through the PAIN" tells people to go on where they should stop; '
        "tell them to stop, and what to do instead."
    ]


@pytest.mark.parametrize("word", ["cu\u00adres", "**cu**res", "cu\u200dres", "__cures__"])
def test_a_word_that_is_parted_out_of_sight_is_still_read(change_lesson, word):
    steps = (Passage(f"This {word} asthma.", 23),)
    (finding,) = find_cure_claims(change_lesson(steps=steps))
    assert finding.fact.startswith('"cures" promises')


def test_wordings_come_in_the_order_of_the_text():
    text = "Clinically proven. It cures asthma and heals the body."
    assert find_claims(text) == ("Clinically proven", "cures", "heals the")


def test_a_typed_apostrophe_is_read_like_a_straight_one():
    for mark in "'’":
        assert find_pressure(f"Don{mark}t stop if it hurts.") == (f"Don{mark}t stop if it hurts",)
        assert find_claims(f"It can{mark}t cure asthma.") == ()


def test_each_text_of_a_notice_is_told_at_its_own_key(small_course):
    claim = "It cures asthma."
    keys = {"title": (2, 8), "short": (6, 8), "adapt": (7, 8)}
    notice = replace(small_course.notices[0], short=claim, adapt=claim, positions=keys)
    places = [
        (finding.place.line, finding.place.column)
        for finding in find_cure_claims(replace(small_course, notices=(notice,)))
    ]
    assert places == [(6, 8), (7, 8)]
    titled = replace(small_course.notices[0], title=claim, positions=keys)
    (finding,) = find_cure_claims(replace(small_course, notices=(titled,)))
    assert (finding.place.line, finding.place.column) == (2, 8)
