"""Words: trade terms that the glossary lacks, and coach's talk in what clients read."""

import re
from collections.abc import Iterator

from builder import rules
from builder.checks.texts import client_texts, write_out
from builder.checks.words_grade import is_english
from builder.course.course import Course
from builder.course.lesson import Lesson
from builder.findings import Finding

_TERMS = (
    *("abdomen", "abdominals", "abduction", "adduction", "anterior", "box breathing"),
    *("cervical", "coccyx", "concentric", "costal", "crocodile breathing", "diaphragm"),
    *("diaphragmatic", "dorsal", "dorsiflexion", "eccentric", "extension", "flexion"),
    *("glute", "half-kneeling", "hamstring", "hip flexor", "hypertension", "intercostals"),
    *("isometric", "kyphosis", "lateral", "lordosis", "lumbar", "medial", "neutral spine"),
    *("oblique", "pelvic floor", "pelvic tilt", "pelvis", "perineum", "plantarflexion"),
    *("posterior", "prone", "proprioception", "quadruped", "range of motion", "sacrum"),
    *("scapula", "scapulae", "side-lying", "sternum", "supine", "thoracic", "trachea"),
    *("transverse", "trapezius", "valsalva", "vertebra", "vertebrae"),
)
"""Terms of the trade that a lay reader may not know."""
_BRACE = ("brace", "braces", "braced", "bracing")
_TERM_BY_FORM = {
    **{form: term for term in _TERMS for form in (term, f"{term}s")},
    **dict.fromkeys(_BRACE, "brace"),
}
_TERM = re.compile(
    rf"\b(?:{'|'.join(map(re.escape, sorted(_TERM_BY_FORM, key=len, reverse=True)))})\b"
)
"""Longest form first, in small letters."""
_COACH_TALK = re.compile(
    r"\b(?:(?:the|your|a|each|every) (?:client|patient|participant|trainee)s?"
    r"|clients|participants"
    r"|(?:cue|tell|ask|correct|observe|assess|coach) (?:them|him|her)\b(?! own)"
    r"|(?:let|have) (?:him|her)\b(?! own)"
    r"|palpat(?:e|es|ed|ing|ion)"
    r"|(?:tactile|verbal|manual) cue\w*"
    r"|contra-?indicat\w+"
    r"|(?:regress|progress) (?:to|the|them)\b"
    r"|(?:walk|go) round the (?:class|room|group))",
    re.IGNORECASE,
)


def find_terms_without_entry(course: Course) -> Iterator[Finding]:
    """Report trade terms, also those of positions, that the glossary doesn't explain."""
    entries = {form for heading in course.glossary for form in _headwords(heading)}
    for lesson in course.lessons:
        term = lesson.drill.position.term
        if term and term.lower() not in entries:
            yield rules.TERM_WITHOUT_ENTRY.at(lesson.at("position"), *_say(term))
        if is_english(course):
            yield from _find_terms(course, lesson, entries)


def find_coach_words(course: Course) -> Iterator[Finding]:
    """Report talk about clients in what clients read."""
    if not is_english(course):
        return
    for lesson in course.lessons:
        for text in write_out(course, client_texts(lesson)):
            for found in _COACH_TALK.finditer(text.words):
                yield rules.COACH_WORDS_FOR_CLIENTS.at(
                    text.place,
                    f'"{found.group()}" speaks to a coach, but clients read this',
                    'speak to the client as "you", or move it to the coach notes',
                )


def _find_terms(course: Course, lesson: Lesson, entries: set[str]) -> Iterator[Finding]:
    """Yield each term once, where the lesson first uses it."""
    seen = {lesson.drill.position.term.lower()}
    for text in write_out(course, client_texts(lesson)):
        for form in _TERM.findall(text.words.lower()):
            term = _TERM_BY_FORM[form]
            if term not in seen and not {term, f"{term}s", form} & entries:
                yield rules.TERM_WITHOUT_ENTRY.at(text.place, *_say(term))
            seen.add(term)


def _say(term: str) -> tuple[str, str]:
    fact = f'the trade term "{term}" has no entry in the glossary'
    return fact, "add it to glossary.md as a heading, or use a plain word"


def _headwords(heading: str) -> Iterator[str]:
    """Yield the words that a glossary heading such as ``Tail (pelvis), tailbone`` explains."""
    for part in re.split(r"[(),;/]", heading.lower()):
        yield part.strip()
