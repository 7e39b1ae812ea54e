"""What is said of a card that can't be handed out."""

import re
from collections.abc import Callable
from dataclasses import replace

import pytest

from builder.course.audience import Audience
from builder.course.course import Course
from builder.publishing.cards.face import CardFace, face_cards
from builder.publishing.cards.findings import find_card_faults
from builder.publishing.cards.html import read_style, write_front
from builder.publishing.cards.pdf import open_press
from builder.publishing.cards.printing import examine_card, print_card
from builder.publishing.cards.record import CardRecord, SideRecord
from builder.publishing.cards.setting import Setting
from builder.reading.course_folder import read_course
from builder.sums.paper import PAPERS
from tests.conftest import SMALL_COURSE, WriteCourse
from tests.publishing.conftest import make_face

LESSON = "content/lessons/count/short-hold.md"
SENTENCE = "Let the breath come and go as softly as it likes today. "
"""Twelve words."""


def write_long(write_course: WriteCourse, old: str, new: str) -> Course:
    text = (SMALL_COURSE / LESSON).read_text(encoding="utf-8")
    assert old in text
    course = read_course(write_course({LESSON: text.replace(old, new)})).course
    assert course is not None
    return course


def print_faults(course: Course, paper: str, audience: Audience = Audience.CLIENT) -> list[str]:
    face = face_cards(course, [course.by_id["short-hold"]], audience, [PAPERS[paper]])[paper][0]
    record = print_card(face)
    assert bool(record.pdf) == record.fits
    return [str(fault) for fault in find_card_faults(course.by_id["short-hold"], face, record)]


def test_a_card_of_600_words_names_the_part_and_the_excess(write_course: WriteCourse) -> None:
    steps = "\n".join(f"{number}. {SENTENCE * 5}" for number in range(3, 14))
    course = write_long(write_course, "\n## If it is hard", f"{steps}\n\n## If it is hard")
    (fault,) = print_faults(course, "a6")
    found = re.fullmatch(
        LESSON + r":23:1: C101 card-overflow: the A6 card is (\d+) mm \((\d+) lines, about "
        r"(\d+) words\) too long at 8 pt, its smallest type; "
        r'shorten "Steps", now (\d+) words\.',
        fault,
    )
    assert found
    millimetres, lines, words, now = map(int, found.groups())
    assert now == 11 * 5 * 12 + 16
    # A line of 8 pt with a leading of 1.14 is 3.2 mm high.
    assert lines == pytest.approx(millimetres / 3.2, abs=1)
    assert words < now


def test_what_the_finding_asks_for_is_enough(write_course: WriteCourse) -> None:
    steps = "\n".join(f"{number}. {SENTENCE * 5}" for number in range(3, 9))
    course = write_long(write_course, "\n## If it is hard", f"{steps}\n\n## If it is hard")
    (fault,) = print_faults(course, "a6")
    words = int(re.search(r"about (\d+) words", fault)[1])
    kept = (SENTENCE * 30).split()[: 360 - round(words * 1.1)]
    shorter = write_long(
        write_course, "\n## If it is hard", f"3. {' '.join(kept)}\n\n## If it is hard"
    )
    assert print_faults(shorter, "a6") == []


def test_a_long_header_list_is_named_at_its_own_line(write_course: WriteCourse) -> None:
    long = ", ".join(f'"{SENTENCE.strip()}"' for _ in range(60))
    course = write_long(
        write_course, "ready_when: [Five breaths go by with a soft throat]", f"ready_when: [{long}]"
    )
    (fault,) = print_faults(course, "a6")
    assert fault.startswith(f"{LESSON}:13:13: ")
    assert 'shorten "Ready when"' in fault


def test_notices_that_are_too_long_are_named_by_the_longest(write_course: WriteCourse) -> None:
    notice = "content/notices/slow.md"
    text = (SMALL_COURSE / notice).read_text(encoding="utf-8")
    long = text.replace("Small, quiet breaths.", SENTENCE * 30)
    root = write_course({notice: long})
    course = read_course(root).course
    assert course
    (fault,) = print_faults(course, "a6")
    assert "C101 card-overflow" in fault
    assert 'shorten the longest, "slow", or leave this paper out.' in fault


def test_long_coach_notes_are_named_on_the_back(write_course: WriteCourse) -> None:
    note = '- Say "soft throat" when somebody strains.'
    course = write_long(write_course, note, "\n".join(f"- {SENTENCE * 5}" for _ in range(20)))
    (fault,) = print_faults(course, "a6", Audience.COACH)
    assert "the back of the A6 card is" in fault
    assert 'shorten "Coach notes"' in fault
    assert print_faults(course, "a6") == []


def tamper(face: CardFace, change: Callable[[str], str], style: str = "") -> CardRecord:
    """Print a card whose HTML something took apart after the fit."""
    html = change(write_front(face, Setting(8, is_dense=True)))
    layout = open_press().lay_out_apart(html, read_style(face.paper) + style)
    side = SideRecord(Setting(8, is_dense=True), 0)
    return examine_card(face, (side,), layout.write(), layout.source)


def faults_of(course: Course, record: CardRecord) -> list[str]:
    face = make_face(course, "short-hold")
    return [str(fault) for fault in find_card_faults(course.by_id["short-hold"], face, record)]


def test_an_untouched_card_has_no_fault(small_course: Course) -> None:
    record = tamper(make_face(small_course, "short-hold"), str)
    assert faults_of(small_course, record) == []


def test_a_removed_notice_is_found_in_the_finished_card(small_course: Course) -> None:
    notice = "High blood pressure: ask your clinician before you hold."
    record = tamper(make_face(small_course, "short-hold"), lambda html: html.replace(notice, ""))
    empty, fault = sorted(faults_of(small_course, record))
    assert "A113 pdf-part-empty" in empty
    assert fault.startswith(
        f"{LESSON}:2:8: C105 notice-missing: the finished A6 card lacks the notice holding: "
        f'"{notice}"; '
    )
    assert not record.is_sound(8)


def test_a_removed_caution_is_found_too(small_course: Course) -> None:
    record = tamper(
        make_face(small_course, "short-hold"),
        lambda html: html.replace("not medical advice", "medical advice"),
    )
    (fault,) = faults_of(small_course, record)
    assert "C105 notice-missing: the finished A6 card lacks the caution: " in fault


def test_a_lost_step_is_found_in_the_finished_card(small_course: Course) -> None:
    step = "<li>Breathe out for three, then hold for three.</li>"
    record = tamper(make_face(small_course, "short-hold"), lambda html: html.replace(step, ""))
    (fault,) = faults_of(small_course, record)
    assert 'C106 text-lost: the finished A6 card lacks the step 2: "Breathe out' in fault


def test_type_under_the_floor_is_found_in_the_finished_card(small_course: Course) -> None:
    record = tamper(make_face(small_course, "short-hold"), str, ".safety { font-size: 6pt }")
    (fault,) = faults_of(small_course, record)
    assert "C102 text-too-small: the A6 card has type of 6 pt, under 8 pt; " in fault


def test_words_beyond_the_edge_are_found_in_the_finished_card(small_course: Course) -> None:
    record = tamper(
        make_face(small_course, "short-hold"), str, ".safety { margin: 0 -60mm 0 60mm }"
    )
    assert any(
        "C106 text-lost: words of the A6 card left its page" in fault
        for fault in faults_of(small_course, record)
    )


def test_a_card_without_words_is_not_sound(hold_card: CardRecord) -> None:
    assert hold_card.is_sound(8)
    assert not replace(hold_card, smallest_points=0).is_sound(8)
