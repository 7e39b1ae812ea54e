"""Props: what a lesson needs is listed, used, to be had at home, and enough for a class."""

import re
from collections.abc import Iterable, Iterator

from builder import rules
from builder.checks.texts import client_texts
from builder.course.course import Course
from builder.course.lesson import Lesson
from builder.course.vocabulary import Prop
from builder.findings import Finding, Place

_DETERMINER = r"(?:an?|the|your|each|another|this|that|one|two|three|four)"
_NOT_HERE = re.compile(
    r"\b(?:no|not|without|like|imagine|picture|as if|as though|instead of|than)\b[\w ]*$",
    re.IGNORECASE,
)
_NO_THING = re.compile(
    r"\s+of\s+(?:(?:the|your|each|both)\s+)?(?:foot|feet|thumbs?|hands?|time|muscles?|ribs)\b",
    re.IGNORECASE,
)
_CHOICE = re.compile(r"\bor\b|,|\bof\b|\bon\b")
_NO_NOUN = frozenset({"pair", "edge", "end", "piece", "side", "top", "tied", "untied", "rolled"})


def find_props_without_stand_in(course: Course) -> Iterator[Finding]:
    """Report props for which a household has nothing instead."""
    for prop in course.vocabulary.props.values():
        if not prop.stand_in.strip():
            yield rules.PROP_WITHOUT_STAND_IN.at(
                course.settings.at(f"props.{prop.id}"),
                f'who has no "{prop.title}" at home can\'t do the drill',
                "name something from the house in stand_in",
            )


def find_unlisted_props(course: Course) -> Iterator[Finding]:
    """Report props that a lesson's text uses and its header doesn't list."""
    props = course.vocabulary.props.values()
    for lesson in course.lessons:
        listed = {use.prop.id for use in lesson.drill.props}
        stood_in = {word for use in lesson.drill.props for word in _stand_ins(use.prop)}
        allowed = stood_in.union(*(_heads(prop) for prop in props if prop.id in listed))
        for prop in props:
            found = None if _heads(prop) <= allowed else _find_use(lesson, prop)
            if found:
                place, words = found
                yield rules.PROP_UNLISTED.at(
                    place,
                    f'the text uses "{words}", which props doesn\'t list',
                    f"add {prop.id}: 1 to props, or take it out of the text",
                )


def find_unused_props(course: Course) -> Iterator[Finding]:
    """Report listed props that no text for the client names."""
    for lesson in course.lessons:
        text = " ".join(_plain(text.words) for text in client_texts(lesson))
        for use in lesson.drill.props:
            others = set[str]().union(
                *(_heads(prop) for prop in course.vocabulary.props.values() if prop != use.prop)
            )
            names = _heads(use.prop) | (_stand_ins(use.prop) - others)
            if not re.search(rf"\b{_any_of(names)}\b", text, re.IGNORECASE):
                yield rules.PROP_UNUSED.at(
                    lesson.at(f"props.{use.prop.id}"),
                    f'"{use.prop.title}" is listed, but no text says what to do with it',
                    "say where it goes, or take it out of props",
                )


def find_props_over_set(course: Course) -> Iterator[Finding]:
    """Report lessons that need more of a prop for one person than the studio has."""
    for lesson in course.lessons:
        for use in lesson.drill.props:
            held = use.prop.class_set
            if held is not None and use.count > held:
                yield rules.PROP_OVER_SET.at(
                    lesson.at(f"props.{use.prop.id}"),
                    f'one person needs {use.count} of "{use.prop.title}", the studio has {held}',
                    "ask for fewer, or mend class_set in the course file",
                )


def _find_use(lesson: Lesson, prop: Prop) -> tuple[Place, str] | None:
    noun = rf"(?<![\w-]){_DETERMINER} (?:[\w-]+ ){{0,2}}?{_any_of(_heads(prop))}(?![\w-])"
    for text in client_texts(lesson):
        plain = _plain(text.words)
        for match in re.finditer(noun, plain, re.IGNORECASE):
            before = re.split(r"[,;:.!?]", plain[: match.start()])[-1]
            if not _NOT_HERE.search(before) and not _NO_THING.match(plain, match.end()):
                return text.place, match[0]
    return None


def _heads(prop: Prop) -> set[str]:
    """Return the word that names a prop in running text: the last one of its title."""
    return {prop.title.lower().split()[-1]}


def _stand_ins(prop: Prop) -> set[str]:
    phrases = (phrase.split() for phrase in _CHOICE.split(prop.stand_in.lower()))
    return {words[-1] for words in phrases if words} - _NO_NOUN


def _any_of(words: Iterable[str]) -> str:
    singular = "|".join(re.escape(word) for word in sorted(words))
    return rf"(?:{singular})(?:e?s)?"


def _plain(text: str) -> str:
    return " ".join(re.sub(r"\[\[.*?\]\]|[*_`]", " ", text).split())
