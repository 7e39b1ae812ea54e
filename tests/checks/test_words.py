"""Words: what is found in the text of lessons and notices, and what is left alone."""

from dataclasses import replace

import pytest

from builder.checks.texts import client_texts, notice_texts, write_out
from builder.checks.words_grade import find_hard_words, find_long_cues, find_long_sentences
from builder.checks.words_sides import find_sides_unlike_moving
from builder.checks.words_spelling import find_foreign_spelling
from builder.checks.words_terms import find_coach_words, find_terms_without_entry
from builder.checks.words_tone import find_blame_or_fear
from builder.course.lesson import Cues, Limb, Passage


def lines(findings):
    return [f"{found.place.line}:{found.rule.id}: {found.fact}" for found in findings]


def step(text, line=25):
    return (Passage(text, line),)


def in_language(course, language):
    return replace(course, settings=replace(course.settings, language=language))


def with_notice(course, **parts):
    return replace(course, notices=(replace(course.notices[0], **parts),))


def test_client_text_is_all_but_the_coach_notes(small_course):
    lesson = small_course.by_id["plain-count"]
    texts = [text.words for text in write_out(small_course, client_texts(lesson))]
    assert "Breathe to a count of four." in texts
    assert "You run short of air: count faster" in texts
    assert "Go back to Wide ribs." in texts
    assert not any("low voice" in text for text in texts)


def test_the_long_text_of_a_notice_comes_block_by_block_with_its_line(small_course):
    long = "First line\nand its end.\n\n- one\n  goes on\n- two\n\nLast."
    notice = replace(small_course.notices[0], short="S.", adapt="", long=long, long_line=10)
    said = [(text.place.line, text.words) for text in notice_texts(notice)][1:]
    assert said == [
        (10, "First line and its end."),
        (13, "- one goes on"),
        (15, "- two"),
        (17, "Last."),
    ]


def test_a_grade_over_the_limit_names_counts_and_the_hardest_sentence(change_lesson):
    hard = "Continuously regulate the respiratory musculature, avoiding unnecessary activity. " * 4
    (found,) = find_hard_words(change_lesson(steps=step(hard)))
    assert found.rule.id == "W102"
    assert found.fact.startswith("the reading grade is ")
    assert "over 8 (" in found.fact
    assert "syllables)" in found.fact
    assert found.details[0] == (
        'line 25: "Continuously regulate the respiratory musculature, avoiding…"'
    )


def test_a_tighter_limit_of_the_course_counts(small_course):
    limits = replace(small_course.settings.limits, grade_warn=-3)
    course = replace(small_course, settings=replace(small_course.settings, limits=limits))
    found = list(find_hard_words(course))
    assert {finding.rule.id for finding in found} == {"W101"}
    assert len(found) == len(course.lessons) + len(course.notices)


def test_a_hard_notice_is_found_too(small_course):
    long = "Cardiovascular contraindications necessitate individual medical consultation."
    course = with_notice(small_course, long=long)
    assert [found.rule.id for found in find_hard_words(course)] == ["W102"]


def test_a_language_without_a_formula_is_not_graded(change_lesson):
    hard = "Détendre continuellement la musculature respiratoire accessoire. " * 4
    course = in_language(change_lesson(steps=step(hard)), "fr-FR")
    assert list(find_hard_words(course)) == []


def test_german_is_graded_by_its_own_formula(change_lesson):
    hard = "Die Atemhilfsmuskulatur kontinuierlich entspannen und anschließend ausatmen. " * 9
    course = in_language(change_lesson(steps=step(hard)), "de-DE")
    facts = [found.fact for found in find_hard_words(course) if "Atemhilfs" in found.details[0]]
    assert facts
    assert facts[0].startswith("the reading grade is ")
    assert " words a sentence, " in facts[0]


def test_spanish_is_graded_by_ease_which_falls_where_words_get_harder(change_lesson):
    hard = "Continuamente desestabilizaremos la musculatura respiratoria involuntariamente. "
    course = in_language(change_lesson(steps=step(f"Sube la mano. {hard * 4}")), "es-ES")
    found = [each for each in find_hard_words(course) if "Continuamente" in each.details[0]]
    assert [each.rule.id for each in found] == ["W102"]
    assert found[0].fact.startswith("the reading ease is ")
    assert ", under 55 (" in found[0].fact
    easy = in_language(change_lesson(steps=step("Sube la mano. " * 30)), "es-ES")
    place = easy.by_id["plain-count"].at("title")
    assert place not in [each.place for each in find_hard_words(easy)]


@pytest.mark.parametrize(("words", "number"), [(25, 0), (26, 1)])
def test_a_sentence_may_have_25_words(change_lesson, words, number):
    course = change_lesson(steps=step(" ".join(["word"] * words) + ". Short."))
    assert len(lines(find_long_sentences(course))) == number


def test_a_long_sentence_of_a_notice_is_found_at_its_line(small_course):
    course = with_notice(small_course, long=f"Short.\n\n{'word ' * 26}", long_line=9)
    (found,) = find_long_sentences(course)
    assert (found.place.line, found.place.path) == (11, course.notices[0].place.path)


@pytest.mark.parametrize(("words", "number"), [(9, 0), (10, 1)])
def test_a_cue_may_have_nine_words(change_lesson, words, number):
    course = change_lesson(cues=Cues("In", " ".join(["out"] * words)))
    assert [found.fact for found in find_long_cues(course)] == [
        f'the cue "{" ".join(["out"] * words)}" has 10 words'
    ] * number


def test_a_lesson_without_cues_has_no_long_ones(change_lesson):
    assert list(find_long_cues(change_lesson(cues=None))) == []


def test_a_trade_term_is_reported_once_a_lesson(change_lesson):
    course = change_lesson(steps=step("Feel the pelvis. Both sides of the pelvis. Brace."))
    assert lines(find_terms_without_entry(course)) == [
        '25:W105: the trade term "pelvis" has no entry in the glossary',
        '25:W105: the trade term "brace" has no entry in the glossary',
    ]


@pytest.mark.parametrize("heading", ["Pelvis", "pelvis", "Hip ring (pelvis)", "Tail, pelvis"])
def test_a_glossary_heading_explains_a_term(change_lesson, heading):
    course = change_lesson(steps=step("Feel the pelvis."))
    assert (
        list(find_terms_without_entry(replace(course, glossary={heading: "…", "Supine": ""}))) == []
    )


def test_the_term_of_a_position_needs_an_entry(small_course):
    found = list(find_terms_without_entry(replace(small_course, glossary={})))
    assert {finding.place.line for finding in found} == {6}
    assert len(found) == len(small_course.lessons)


@pytest.mark.parametrize(
    ("text", "does"),
    [
        ("Don't be lazy.", "blames"),
        ("You'll damage your back.", "frightens"),
        ("This can be dangerous.", "frightens"),
        ("Stop being so stiff.", "blames"),
        ("Fix your bad posture.", "blames"),
    ],
)
def test_blame_and_fear_are_found(change_lesson, text, does):
    (finding,) = find_blame_or_fear(change_lesson(steps=step(text)))
    assert finding.fact.endswith(f'" {does}')
    assert finding.cure == "say what to do instead"


@pytest.mark.parametrize(
    "text",
    [
        "Stop if it hurts.",
        "Let the weak side lead.",
        "Don't push the hand down.",
        "If you lose the count, start again.",
        "The breath may be a little harder to feel here.",
    ],
)
def test_plain_words_are_neither_blame_nor_fear(change_lesson, text):
    assert list(find_blame_or_fear(change_lesson(steps=step(text)))) == []


def test_the_coach_may_talk_about_clients(change_lesson):
    text = "Cue them softly. Your client may need a towel."
    assert list(find_coach_words(change_lesson(coach_notes=step(text)))) == []
    assert lines(find_coach_words(change_lesson(steps=step(text)))) == [
        '25:W108: "Cue them" speaks to a coach, but clients read this',
        '25:W108: "Your client" speaks to a coach, but clients read this',
    ]


@pytest.mark.parametrize(
    "text", ["Let them rise again.", "Put a hand on the ribs and ask yourself."]
)
def test_words_about_ribs_and_hands_are_not_coach_words(change_lesson, text):
    assert list(find_coach_words(change_lesson(steps=step(text)))) == []


@pytest.mark.parametrize(
    ("text", "moving", "number"),
    [
        ("Lift the left arm.", (), 1),
        ("Lift the left arm.", (Limb.LEFT_ARM,), 0),
        ("Lift your left knee, then slide the right heel away.", (Limb.LEFT_LEG,), 1),
        ("Slowly lower the right leg. Raise the right knee.", (), 1),
        ("Rest your left hand on the right ribs.", (), 0),
        ("The left arm lifts.", (), 1),
        ("Lift one arm.", (), 0),
        ("Send the breath to the left side.", (), 0),
    ],
)
def test_a_limb_that_moves_in_words_stands_in_moving(change_lesson, text, moving, number):
    course = change_lesson(steps=step(text), moving=moving)
    assert len(list(find_sides_unlike_moving(course))) == number


@pytest.mark.parametrize(
    ("language", "text", "cures"),
    [
        ("en-GB", "Center the color of it.", ['write "centre"', 'write "colour"']),
        ("en-AU", "Stabilize and organize.", ['write "stabilise"', 'write "organise"']),
        ("en-US", "Centre it, and realise why.", ['write "center"', 'write "realize"']),
        ("en-GB", "Exercise at the centre of the mat. Practice makes a habit. Size matters.", []),
        ("en-US", "Exercise at the center. Rise. Practice. Raise a promise.", []),
        ("en-CA", "Center the colour.", []),
        ("de-DE", "Center.", []),
    ],
)
def test_spelling_follows_the_language_of_the_course(change_lesson, language, text, cures):
    course = in_language(change_lesson(steps=step(text)), language)
    assert [found.cure for found in find_foreign_spelling(course)] == cures


def test_coach_notes_are_spelt_like_the_rest(change_lesson):
    course = change_lesson(coach_notes=step("Watch the color.", 40))
    assert [found.place.line for found in find_foreign_spelling(course)] == [40]
