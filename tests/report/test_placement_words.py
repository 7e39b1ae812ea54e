"""What a coach reads about starts, barriers and adaptations: calm, short, and who comes first."""

from dataclasses import replace
from datetime import date

import pytest

from builder.planning.answers import FoundAnswer, Origin
from builder.planning.permission import (
    Adaptation,
    AdaptationKind,
    Barrier,
    BarrierKind,
    find_adaptations,
    find_barriers,
)
from builder.planning.placement import Start
from builder.planning.placing import PersonStart, StartKind, place_person
from builder.report.placement_words import say_adaptation, say_answer, say_barrier, say_start
from tests.planning.starter import TODAY, make_person, make_result, read_starter

STARTER = read_starter()


@pytest.mark.parametrize(
    ("barrier", "says"),
    [
        (
            Barrier(BarrierKind.ASK_FIRST, "ask-first", ("pregnancy",)),
            "no clinician's answer on record for pregnancy: a licensed clinician comes first",
        ),
        (
            Barrier(BarrierKind.ASK_FIRST, "ask-first", ("asthma", "hernia", "dizziness")),
            "no clinician's answer on record for asthma, hernia and dizziness or fainting: "
            "a licensed clinician comes first",
        ),
        (
            Barrier(BarrierKind.STOP, "back-pain", ("back-pain",)),
            'the notice "Back pain that needs a clinician" leaves it out with back pain',
        ),
        (
            Barrier(BarrierKind.ANSWER, question_id="floor", answer="no"),
            'asked "Can you get down to the floor and up again?", they said "No, or I am not sure"',
        ),
        (
            Barrier(BarrierKind.HOLD, hold_seconds=4, most_hold_seconds=3.75),
            "the count holds 4 s, and half of the comfortable hold is 3.75 s",
        ),
        (
            Barrier(BarrierKind.HOLD, hold_seconds=3),
            "the count holds 3 s, and no comfortable hold is on record",
        ),
        (
            Barrier(BarrierKind.AIR, air_percent=104),
            "the count is too slow for this drill and this body: a breath would take 104% of the "
            "predicted capacity",
        ),
    ],
)
def test_a_barrier_says_what_stands_in_the_way(barrier: Barrier, says: str) -> None:
    assert say_barrier(STARTER, barrier) == says


def test_an_adaptation_says_what_the_notice_says() -> None:
    (told,) = find_adaptations(STARTER, make_person("reflux"), STARTER.by_id["belly-breath"])
    assert say_adaptation(STARTER, told) == "reflux: Wait, or do the same breathing sitting."


@pytest.mark.parametrize(
    ("adaptation", "says"),
    [
        (
            Adaptation(AdaptationKind.HANDS_ON),
            "words only, no hands: no consent is on record",
        ),
        (
            Adaptation(AdaptationKind.AIR, air_percent=62),
            "big breaths: each takes 62% of the predicted capacity, so offer a shorter count",
        ),
        (
            Adaptation(AdaptationKind.CLEARED, None, ("hernia",), (date(2026, 9, 14),)),
            "a clinician said yes: hernia on 2026-09-14",
        ),
        (
            Adaptation(
                AdaptationKind.CLEARED,
                None,
                ("hernia", "asthma"),
                (date(2026, 1, 5), date(2026, 9, 14)),
                ("hernia",),
            ),
            "a clinician said yes: hernia on 2026-01-05, asthma on 2026-09-14; "
            "over 26 weeks ago for hernia, so ask again",
        ),
    ],
)
def test_an_adaptation_says_what_is_different(adaptation: Adaptation, says: str) -> None:
    assert say_adaptation(STARTER, adaptation) == says


@pytest.mark.parametrize(
    ("cleared", "says"),
    [
        ({}, "thin bones and pregnancy: Keep"),
        ({"thin-bones": date(2026, 9, 2)}, "thin bones and pregnancy: Keep"),
        (
            {"thin-bones": date(2026, 9, 2), "pregnancy": date(2026, 1, 5)},  # one is too old
            "thin bones and pregnancy: Keep",
        ),
        (
            {"thin-bones": date(2026, 9, 2), "pregnancy": date(2026, 9, 10)},
            "thin bones and pregnancy, even after a yes: Keep",
        ),
    ],
)
def test_a_yes_to_all_that_a_notice_names_is_told_beside_it(
    cleared: dict[str, date], says: str
) -> None:
    person = make_person("thin-bones", "pregnancy", cleared=cleared)
    lesson = STARTER.by_id["standing-breath"]
    told = find_adaptations(STARTER, person, lesson, day=date(2026, 11, 26))
    (adapted,) = (each for each in told if each.notice and each.notice.id == "balance")
    said = say_adaptation(STARTER, adapted)
    assert said.startswith(says)
    assert adapted.notice is not None
    assert said.endswith(adapted.notice.adapt)


def test_after_a_clinicians_yes_the_notice_of_a_lesson_is_still_told() -> None:
    person = make_person("pregnancy", cleared={"pregnancy": TODAY})
    told = find_adaptations(STARTER, person, STARTER.by_id["brace-and-breathe"])
    cleared = [each for each in told if each.kind is AdaptationKind.CLEARED]
    said = [say_adaptation(STARTER, each) for each in cleared]
    assert [words.partition("; ")[2] for words in said] == [
        "",
        "the notice goes on holding: Hernia, pregnancy, pelvic-floor symptoms, surgery within six "
        "weeks: ask. Leak, bulge: stop.",
    ]


def say_starts(*conditions: str, ready: tuple[str, ...] = ()) -> dict[str, str]:
    person = make_person(*conditions, cleared={"dizziness": TODAY})
    starts = place_person(STARTER, person, (), ready)
    return {start.strand_id: say_start(STARTER, start) for start in starts}


def test_a_start_says_the_tables_reason_or_what_bars_it() -> None:
    assert say_starts()["breath"] == "It is the first of them, and soon done if it is easy."
    assert set(say_starts("hernia").values()) == {
        "no clinician's answer on record for hernia: a licensed clinician comes first"
    }
    assert say_starts("dizziness", ready=("full-exhale",))["tempo"] == (
        'the strand waits at "Even count": the notice "Tingling and a light head" leaves it out '
        "with dizziness or fainting"
    )


def test_a_start_that_gave_way_names_the_lesson_that_was_meant() -> None:
    meant = Start("tempo", "box", "It is the next one.")
    barriers = find_barriers(STARTER, make_person(), (), STARTER.by_id["box"], TODAY)
    start = PersonStart("tempo", "even-count", StartKind.EASIER, meant, barriers)
    assert say_start(STARTER, start) == (
        f'in place of "{STARTER.by_id["box"].title}": '
        "the count holds 4 s, and no comfortable hold is on record"
    )
    lost = replace(start, kind=StartKind.UNREADABLE, start=replace(meant, lesson_id="gone"))
    assert say_start(STARTER, lost) == 'the strand waits: the file of "gone" can\'t be read'


@pytest.mark.parametrize(
    ("answer", "says"),
    [
        (FoundAnswer("known", "new", Origin.OTHERWISE), "It is all new to me (nothing else is on"),
        (
            FoundAnswer("known", "breath", Origin.HISTORY, lesson_id="full-exhale"),
            'I know the breathing lessons well (ready in "Full out-breath")',
        ),
        (FoundAnswer("hold", 9.5, Origin.RESULT, TODAY), "9.5 s (recorded on 2026-11-26)"),
        (
            FoundAnswer("kneel", "no", Origin.CONDITION, conditions=("sore-knees",)),
            "No, or it hurts (because of sore knees)",
        ),
    ],
)
def test_an_answer_says_where_it_comes_from(answer: FoundAnswer, says: str) -> None:
    assert say_answer(STARTER, answer).startswith(says)


def test_no_sentence_of_a_barrier_diagnoses_or_clears() -> None:
    person = make_person(*STARTER.vocabulary.conditions)
    hold = (make_result("breath-hold-seconds", 3),)
    for lesson in STARTER.lessons:
        for barrier in find_barriers(STARTER, person, hold, lesson, TODAY):
            said = say_barrier(STARTER, barrier).lower()
            assert not any(word in said for word in ("safe", "diagnos", "cure", "fit to", "risk"))
            assert said == said.strip(" .")
