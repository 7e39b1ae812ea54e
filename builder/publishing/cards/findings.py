"""What is wrong with a finished card, as findings at the lesson's own lines."""

import math
from collections.abc import Iterator

from builder import rules
from builder.course.course import Course
from builder.course.lesson import Lesson
from builder.findings import Finding, Place
from builder.publishing.cards.course_packs import LostPack
from builder.publishing.cards.face import CardFace
from builder.publishing.cards.record import CardRecord, SideRecord
from builder.publishing.cards.typeface import find_lacking_signs
from builder.publishing.cards.words import count_parts, is_caution, list_wanted_words
from builder.publishing.proof.structure.fault import place_faults
from builder.publishing.views.wording import word_count
from builder.sums.paper import MM_PER_INCH, POINTS_PER_INCH

_LEADING = 1.14
_WORD_MM_PER_POINT = 0.9
"""What a word takes of a line, its space counted (measured on the starter course)."""
_PLANNED_WORDS = {
    "Set up": 35,
    "Steps": 70,
    "Watch for": 36,
    "Ready when": 16,
    "Stop if": 16,
    "If it is hard": 26,
    "Notices": 90,
    "Coach notes": 160,
}
"""What a card has room for, part by part, at the smallest type of the smallest card."""


def find_card_faults(lesson: Lesson, face: CardFace, record: CardRecord) -> tuple[Finding, ...]:
    """Return what keeps a card from being handed out."""
    if record.lost:
        fact = f"its {face.paper.title} card was not made: {record.lost}"
        cure = "shorten the lesson, or leave unusual signs out of it"
        return (rules.MADE_TOO_LONG.at(lesson.at("title"), fact, cure),)
    if record.refused:
        cure = "take the text that names it away"
        return (rules.FETCH_REFUSED.at(lesson.at("title"), record.refused, cure),)
    if not record.fits:
        sides = enumerate(record.sides)
        return tuple(
            _overflow(lesson, face, side, is_back=index > 0)
            for index, side in sides
            if side.excess_mm
        )
    return tuple(_find_losses(lesson, face, record))


def tell_lost_pack(course: Course, lost: LostPack) -> Finding:
    """Make the finding that a pack was not made."""
    pack, settings = lost.pack, course.settings
    strands = tuple(course.vocabulary.strands)
    is_strand = pack.name in strands
    key = f"strands.{strands.index(pack.name)}.title" if is_strand else "title"
    fact = f'the {pack.paper.title} pack "{pack.name}" was not made: {lost.reason}'
    return rules.MADE_TOO_LONG.at(settings.at(key), fact, "see that enough memory is free")


def _overflow(lesson: Lesson, face: CardFace, side: SideRecord, *, is_back: bool) -> Finding:
    paper = face.paper
    line_mm = side.setting.points * _LEADING / POINTS_PER_INCH * MM_PER_INCH
    lines = math.ceil(side.excess_mm / line_mm)
    width = paper.width_mm - 2 * paper.margin_mm
    words = round(lines * width / (side.setting.points * _WORD_MM_PER_POINT))
    part, count = _longest_part(face, is_back=is_back)
    name = f"{paper.title} card" if not is_back else f"back of the {paper.title} card"
    return rules.CARD_OVERFLOW.at(
        _place_part(lesson, part),
        f"the {name} is {math.ceil(side.excess_mm)} mm ({word_count(lines, 'line')}, about "
        f"{word_count(words, 'word')}) too long at {side.setting.points:g} pt, its smallest type",
        _cure(face, part, count),
    )


def _cure(face: CardFace, part: str, count: int) -> str:
    """Say what to shorten; notices stand in files of their own, so the longest is named."""
    if part != "Notices":
        return f'shorten "{part}", now {word_count(count, "word")}'
    longest = max(face.lesson.notices, key=lambda notice: len(notice.short))
    return (
        f"its notices have {word_count(count, 'word')} in all: shorten the longest, "
        f'"{longest.id}", or leave this paper out'
    )


def _find_losses(lesson: Lesson, face: CardFace, record: CardRecord) -> Iterator[Finding]:
    name = f"{face.paper.title} card"
    again = "build again, and report it as a fault of the tool if it stays"
    wanted = list_wanted_words(face)
    lacking = "".join(find_lacking_signs(wanted.values()))
    if lacking:
        yield rules.TEXT_LOST.at(
            lesson.at("title"),
            f'the typeface of the cards has no "{lacking}", which would print as empty boxes',
            "leave these signs out, or write them in Latin, Greek or Cyrillic letters",
        )
    for missing in record.missing:
        rule = rules.NOTICE_MISSING if is_caution(missing) else rules.TEXT_LOST
        fact = f'the finished {name} lacks the {missing}: "{wanted[missing]}"'
        yield rule.at(lesson.at("title"), fact, again)
    if record.has_words_outside or record.pages != len(record.sides):
        yield rules.TEXT_LOST.at(lesson.at("title"), f"words of the {name} left its page", again)
    if record.smallest_points < face.paper.floor_points:
        yield rules.TEXT_TOO_SMALL.at(
            lesson.at("title"),
            f"the {name} has type of {record.smallest_points:g} pt, under "
            f"{face.paper.floor_points:g} pt",
            again,
        )
    yield from place_faults(record.faults, f"the {name}", lesson.at("title"))


def _longest_part(face: CardFace, *, is_back: bool) -> tuple[str, int]:
    """Return the part that goes furthest over what a card has room for."""
    parts = count_parts(face, back=is_back)
    return max(parts.items(), key=lambda part: part[1] / _PLANNED_WORDS[part[0]])


def _place_part(lesson: Lesson, part: str) -> Place:
    words = lesson.words
    passages = {
        "Set up": words.set_up,
        "Steps": words.steps,
        "If it is hard": words.if_hard,
        "Coach notes": words.coach_notes,
    }
    if passages.get(part):
        return lesson.at_line(passages[part][0].line)
    return lesson.at(part.lower().replace(" ", "_"))
