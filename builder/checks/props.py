"""Props: what a lesson needs is listed, used, to be had at home, and enough for a class."""

import re
from collections.abc import Iterable, Iterator

from builder import rules
from builder.checks.texts import client_texts
from builder.course.course import Course
from builder.course.lesson import Lesson
from builder.course.vocabulary import Prop, PropUse
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
        listed = [use.prop for use in lesson.drill.props]
        explained = {_head(prop) for prop in listed}.union(*map(_stand_ins, listed))
        for head, (place, words) in _find_uses(lesson, {_head(prop) for prop in props}).items():
            if head not in explained:
                names = " or ".join(f"{prop.id}: 1" for prop in props if _head(prop) == head)
                yield rules.PROP_UNLISTED.at(
                    place,
                    f'the text uses "{words}", which props doesn\'t list',
                    f"add {names} to props, or take it out of the text",
                )


def find_unused_props(course: Course) -> Iterator[Finding]:
    """Report listed props that no text for the client names."""
    props = course.vocabulary.props.values()
    for lesson in course.lessons:
        text = " ".join(_plain(text.words) for text in client_texts(lesson))
        for use in lesson.drill.props:
            others = {_head(prop) for prop in props if prop != use.prop}
            names = {_head(use.prop)} | (_stand_ins(use.prop) - others)
            if not re.search(rf"\b{_any_of(names)}\b", text, re.IGNORECASE):
                yield rules.PROP_UNUSED.at(
                    lesson.at(f"props.{use.prop.id}"),
                    f'"{use.prop.title}" is listed, but no text says what to do with it',
                    "say where it goes, or take it out of props",
                )


def find_props_over_set(course: Course) -> Iterator[Finding]:
    """Report lessons and notices that need more of a prop for one person than the studio has."""
    for use, place in _list_needs(course):
        held = use.prop.class_set
        if held is not None and use.count > held:
            yield rules.PROP_OVER_SET.at(
                place,
                f'one person needs {use.count} of "{use.prop.title}", the studio has {held}',
                "ask for fewer, or mend class_set in the course file",
            )


def _list_needs(course: Course) -> Iterator[tuple[PropUse, Place]]:
    for lesson in course.lessons:
        for use in lesson.drill.props:
            yield use, lesson.at(f"props.{use.prop.id}")
    for notice in course.notices:
        for use in notice.instead.props if notice.instead else ():
            yield use, notice.at(f"instead.props.{use.prop.id}")


def _find_uses(lesson: Lesson, heads: set[str]) -> dict[str, tuple[Place, str]]:
    """Find where a text uses a thing, its name with an article or a number before it."""
    noun = re.compile(
        rf"(?<![\w-]){_DETERMINER} (?:[\w-]+ ){{0,2}}?(?P<head>{_any_of(heads)})(?![\w-])",
        re.IGNORECASE,
    )
    found: dict[str, tuple[Place, str]] = {}
    for text in client_texts(lesson):
        plain = _plain(text.words)
        for match in noun.finditer(plain) if heads else ():
            before = re.split(r"[,;:.!?]", plain[: match.start()])[-1]
            if not _NOT_HERE.search(before) and not _NO_THING.match(plain, match.end()):
                found.setdefault(_singular(match["head"].lower(), heads), (text.place, match[0]))
    return found


def _head(prop: Prop) -> str:
    """Return the word that names a prop in running text: the last one of its title."""
    return prop.title.lower().split()[-1]


def _singular(word: str, heads: set[str]) -> str:
    return next(
        one for one in (word, word.removesuffix("s"), word.removesuffix("es")) if one in heads
    )


def _stand_ins(prop: Prop) -> set[str]:
    phrases = (phrase.split() for phrase in _CHOICE.split(prop.stand_in.lower()))
    return {words[-1] for words in phrases if words} - _NO_NOUN


def _any_of(words: Iterable[str]) -> str:
    singular = "|".join(re.escape(word) for word in sorted(words))
    return rf"(?:{singular})(?:e?s)?"


def _plain(text: str) -> str:
    return " ".join(re.sub(r"\[\[.*?\]\]|[*_`]", " ", text).split())
