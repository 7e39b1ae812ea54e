"""Hands-on help: nobody is touched without a question before it and a notice about it."""

import re
from collections.abc import Iterator

from builder import rules
from builder.checks.texts import Text, passage_texts
from builder.course.course import Course
from builder.course.lesson import Lesson
from builder.findings import Finding, Place

_BODY = (
    r"(?:(?:low|lower|upper|slower|weaker|side|back|front|left|right|bent|top) )*"
    r"(?:ribs?|back|sides?|belly|chest|shoulders?|hips?|pelvis|waist|neck|head|chin|jaw|arms?"
    r"|elbows?|wrists?|hands?|legs?|knees?|thighs?|calf|calves|ankles?|heels?|feet|foot|spine"
    r"|tail|tummy|breastbone|collarbones?)"
)
_THEM = (
    rf"(?:them|him|her|(?:their|his|her|the (?:client|person|learner|student)'?s?"
    rf"|each person's|somebody's|someone's)(?: {_BODY})?|the {_BODY})"
)
_START = r"(?:^|[.;:,!?]\s*|\b(?:you|and|then|to|may|can|gently|lightly|or)\s+)"
_HANDS = r"(?:hands?|palms?|fingers?|fingertips?|thumbs?|knuckles)"
_COACH_TOUCHES = (
    re.compile(
        rf"\byour (?:own |flat |open |warm |other |free )*{_HANDS}[\w ,]*?"
        rf" (?:on|under|round|around|against|over|beside|behind|between) {_THEM}\b"
    ),
    re.compile(
        rf"{_START}(?:place|put|lay|rest|set|slide|cup|wrap) "
        rf"(?:your|a|one|both|two|flat|light|warm)(?: [\w-]+){{0,2}}? {_HANDS}\b"
        r"(?! (?:off|away|up|down|to yourself|back in)\b)"
    ),
    re.compile(rf"{_START}(?:rest|lay|place|put) flat {_HANDS} on {_THEM}\b"),
    re.compile(rf"{_START}touch(?:ing)? (?:{_THEM}|each|people|anybody|somebody)\b"),
    re.compile(
        rf"{_START}(?:guide|steer|lead|help|move|turn|press|push|pull|nudge|hold|support|steady|lift"
        rf"|adjust|squeeze)(?: (?:down|up|in|gently|lightly|firmly|hard))*(?: (?:on|into|against))?"
        rf" {_THEM}[\w ,]* with (?:your|a|one|both|flat|light)(?: [\w-]+){{0,2}}? {_HANDS}\b"
    ),
    re.compile(
        rf"{_START}(?:press|push|tap|hold|support|lift|nudge|steady|squeeze|pull|stroke|move"
        rf"|adjust|turn|tilt)(?: (?:down|up|gently|lightly))?(?: on)? "
        rf"(?:their|his|her|the (?:client|person|learner|student)'s) {_BODY}\b"
        r"(?!.*\bwith (?:a|the|some) (?!hand|flat|light))"
    ),
)
_OTHERS = r"\b(?:coach|partner|helper|friend|teacher)\b (?:\w+ ){0,3}?"
_OTHERS_TOUCH = (
    re.compile(rf"{_OTHERS}(?:puts?|lays?|places?|rests?|uses?) (?:\w+ ){{0,4}}?{_HANDS}(?![\w-])"),
    re.compile(rf"{_OTHERS}(?:press|touch|hold|guide|move|lift)(?:s|es)? (?:you|your {_BODY})\b"),
    re.compile(rf"\b{_HANDS} of (?:a|the|your) (?:coach|partner|helper|friend|teacher)\b"),
)
_NOT_MEANT = re.compile(
    r"\b(?:don't|do not|never|no|not|without touch|hands off|ask (?:them|him|her|the person|people)"
    r"|have (?:them|the person)|let (?:them|the person)|tell them|show them|invite them"
    r"|their own|your own (?:body|ribs|belly|pelvis|back|chest)|on yourself)\b"
)
_CONSENT = re.compile(
    r"\bask(?:s|ed|ing)? (?:\w+ )?first\b|\bask(?:s|ing)? before\b|\bconsent\b|\bpermission\b"
    r"|\b(?:a|clear|says?|said|with (?:a|their)) yes\b"
    r"|\b(?:pregunt|pid)\w+ (?:\w+ )?(?:antes|primero|permiso)\b|\bconsentimiento\b"
    r"|\bfrag\w* (?:\w+ )?(?:vorher|zuerst|erst)\b|\b(?:einwilligung|erlaubnis)\b"
)
"""In English, Spanish and German; touch itself is looked for in English only."""
_NO_CONSENT = re.compile(
    r"\b(?:without|no need (?:for|to)|don't|do not|never) (?:\w+ ){0,2}"
    r"(?:ask(?:ing)? (?:\w+ )?first|consent|permission)\b"
)
_UNASKED = re.compile(
    r"(?<!never )(?<!not )(?<!n't )\b(?:touch|press|push|pull|adjust|move|turn|guide|help|correct)"
    r"(?:es|ing)? [\w' ]{0,40}?\b(?:without asking|without a word|unasked|before you ask)\b"
)
_SENTENCE_END = re.compile(r"(?<=[.!?])\s+")


def find_hands_on_without_consent(course: Course) -> Iterator[Finding]:
    """Report touch that nobody has asked about, or that the header doesn't tell."""
    for lesson in course.lessons:
        notes = _NO_CONSENT.sub(" ", _join(lesson))
        asks = _CONSENT.search(notes) is not None
        names_trait = "hands-on" in course.traits_by_lesson[lesson.id]
        for text in passage_texts(lesson, *lesson.words.coach_notes):
            unasked = _UNASKED.search(text.words.lower().replace("’", "'"))
            if unasked:
                words = text.words[unasked.start() : unasked.end()]
                fact = f'"{words}" leaves the question out'
                cure = "write: ask first, and wait for a yes"
                yield rules.HANDS_ON_WITHOUT_CONSENT.at(text.place, fact, cure)
        touches = list(_touches(lesson))
        for place, words in touches:
            if not asks:
                fact, cure = "and nothing says to ask first", "write: ask first, and wait for a yes"
            elif not names_trait:
                fact, cure = "and traits doesn't say hands-on", "add hands-on to traits"
            else:
                continue
            yield rules.HANDS_ON_WITHOUT_CONSENT.at(place, f'"{words}", {fact}', cure)
        if names_trait and not asks and not touches:
            yield rules.HANDS_ON_WITHOUT_CONSENT.at(
                lesson.at("traits"),
                "hands-on help is named, and no coach note says to ask first",
                "write in the coach notes: ask first, and wait for a yes",
            )


def _touches(lesson: Lesson) -> Iterator[tuple[Place, str]]:
    words = lesson.words
    for_clients = passage_texts(lesson, *words.set_up, *words.steps, *words.if_hard)
    sources = (
        *((text, _COACH_TOUCHES) for text in passage_texts(lesson, *words.coach_notes)),
        *((text, _OTHERS_TOUCH) for text in for_clients),
    )
    for text, patterns in sources:
        found = _find_touch(text, patterns)
        if found:
            yield text.place, found


def _find_touch(text: Text, patterns: tuple[re.Pattern[str], ...]) -> str:
    for sentence in _SENTENCE_END.split(text.words):
        plain = sentence.lower().replace("’", "'")
        for pattern in patterns:
            match = pattern.search(plain)
            if match and not _NOT_MEANT.search(plain):
                return sentence[match.start() : match.end()].strip(" .,;:")
    return ""


def _join(lesson: Lesson) -> str:
    words = lesson.words
    passages = (*words.coach_notes, *words.set_up, *words.steps, *words.if_hard)
    return " ".join(passage.text for passage in passages).lower().replace("’", "'")
