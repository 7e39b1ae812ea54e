"""A translation held against its original: what is missing, what differs, what changed since."""

import re
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from difflib import SequenceMatcher

from builder import rules
from builder.course.language_tag import root_of
from builder.findings import Finding, Place
from builder.reading.translation.numbers_and_sides import (
    knows_numbers,
    list_numbers,
    swaps_sides,
)
from builder.reading.translation.originals import Kind, Original
from builder.reading.translation.parts import LONG_TEXT, Parts

_LETTERS = re.compile(r"[^\W\d_]+")
_CAUTIONS = frozenset({"caution", "stop if", "ask_first"})
"""Parts that keep people from harm, besides every part of a notice."""
_SAID_AND_DONE = (Kind.LESSON, Kind.NOTICE)
"""What people move and breathe by: its numbers count in words too."""
_LEAST_COPIED = 3
"""Words from which a text that is the same in both languages wasn't translated."""
_SHOWN_CHARACTERS = 160


@dataclass(frozen=True, slots=True)
class Pair:
    """An original and its translation."""

    original: Original
    translated: Parts
    kept: Parts | None
    """The original as it was when it was translated; None where nobody kept it."""
    place: Callable[[str, int], Place]
    """Where a part of the translation stands, by its name and its number from 0."""
    languages: tuple[str, str]
    """Of the original and of the translation, as BCP 47 tags."""

    @property
    def source(self) -> str:
        """Return the original's file."""
        return self.original.place.path

    def is_caution(self, part: str) -> bool:
        """Tell whether a part keeps people from harm."""
        return self.original.kind is Kind.NOTICE or part in _CAUTIONS


def compare(pair: Pair) -> Iterator[Finding]:
    """Report what a translation lacks or says otherwise than its original does."""
    parts = pair.original.parts
    for name in {**parts, **pair.translated}:
        before, after = parts.get(name, ()), pair.translated.get(name, ())
        # A page may say less than its original, and say it otherwise.
        if pair.original.kind is not Kind.PAGE:
            yield from _compare_part(pair, name, before, after)
        yield from _find_copies(pair, name, before, after)
    yield from _find_changes(pair)


def _compare_part(
    pair: Pair, name: str, before: tuple[str, ...], after: tuple[str, ...]
) -> Iterator[Finding]:
    wanted, found = _count_said(before), _count_said(after)
    if wanted != found and (name != LONG_TEXT or 0 in (wanted, found)):
        yield _tell_count(pair, name, wanted, found)
    elif name == LONG_TEXT or len(before) != len(after):
        yield from _compare_numbers(pair, (name, 0), " ".join(before), " ".join(after))
    else:
        for index, texts in enumerate(zip(before, after, strict=True)):
            yield from _compare_numbers(pair, (name, index), *texts)


def _count_said(texts: tuple[str, ...]) -> int:
    """Count the texts that say anything; a dash or a full stop doesn't."""
    return sum(bool(_LETTERS.search(text)) for text in texts)


def _tell_count(pair: Pair, name: str, before: int, after: int) -> Finding:
    fact = f'"{name}" has {_count(before)} in {pair.source} and {_count(after)} here'
    return rules.TRANSLATION_UNLIKE.at(
        pair.place(name, 0), fact, "say the same things in the same order, no more and no fewer"
    )


def _count(number: int) -> str:
    return "1 text" if number == 1 else f"{number or 'no'} texts"


def _compare_numbers(
    pair: Pair, part: tuple[str, int], before: str, after: str
) -> Iterator[Finding]:
    """Report numbers that stand in one of two texts only: a wrong one reaches a body."""
    if before == after:
        return  # a draft; that it isn't translated is told elsewhere
    own, other = map(root_of, pair.languages)
    if swaps_sides(before, after, (own, other)):
        yield rules.SIDES_SWAPPED.at(
            pair.place(*part),
            f'"{part[0]}" has another side than in {pair.source}',
            "say left and right as the original does",
            f'there: "{_shorten(before)}"',
            f'here: "{_shorten(after)}"',
        )
    is_done = pair.original.kind in _SAID_AND_DONE
    with_words = is_done and knows_numbers(own) and knows_numbers(other)
    wanted = list_numbers(before, own, with_words=with_words)
    found = list_numbers(after, other, with_words=with_words)
    if wanted != found:
        lost, gained = wanted - found, found - wanted
        parts = (("lacks", lost), ("adds", gained))
        told = " and ".join(f"{word} {', '.join(sorted(n.elements()))}" for word, n in parts if n)
        yield rules.NUMBERS_UNLIKE.at(
            pair.place(*part),
            f'"{part[0]}" {told}',
            f"write the numbers that {pair.source} has",
            f'there: "{_shorten(before)}"',
            f'here: "{_shorten(after)}"',
        )


def _find_copies(
    pair: Pair, name: str, before: tuple[str, ...], after: tuple[str, ...]
) -> Iterator[Finding]:
    """Report texts that still stand in the original's language."""
    rule = rules.NOTICE_UNTRANSLATED if pair.is_caution(name) else rules.TRANSLATION_MISSING
    copied = {_fold(text) for text in before}
    for index, text in enumerate(after):
        if _fold(text) in copied and len(_LETTERS.findall(text)) >= _LEAST_COPIED:
            yield rule.at(
                pair.place(name, index),
                f'"{name}" still says "{_shorten(text)}"',
                f"translate it into {pair.languages[1]}",
            )


def _find_changes(pair: Pair) -> Iterator[Finding]:
    """Report what the original says otherwise since it was translated."""
    agree = f"tempoleaf translate {pair.languages[1]} --agree"
    if pair.kept is None:
        yield rules.TRANSLATION_STALE.at(
            pair.place("title", 0),
            f"nobody noted which state of {pair.source} this translates",
            f"compare the two, then run: {agree}",
        )
        return
    parts = pair.original.parts
    changed = {name for name in {**pair.kept, **parts} if pair.kept.get(name) != parts.get(name)}
    if changed:
        is_caution = any(pair.is_caution(name) for name in changed)
        rule = rules.CAUTION_STALE if is_caution else rules.TRANSLATION_STALE
        yield rule.at(
            pair.place("title", 0),
            f"{pair.source} has changed since this was translated",
            f"bring it in step, then run: {agree}",
            *list_changes(pair.kept, parts),
        )


def list_changes(before: Parts, after: Parts) -> Iterator[str]:
    """Yield what changed from one state of an original to another, in words."""
    for name in {**before, **after}:
        old, new = before.get(name, ()), after.get(name, ())
        for kind, *bounds in SequenceMatcher(None, old, new, autojunk=False).get_opcodes():
            if kind != "equal":
                from_old, to_old, from_new, to_new = bounds
                yield from (f'{name}, was: "{_shorten(text)}"' for text in old[from_old:to_old])
                yield from (f'{name}, now: "{_shorten(text)}"' for text in new[from_new:to_new])


def _fold(text: str) -> str:
    """Bring a text down to its letters, so that another full stop makes it no translation."""
    return " ".join(_LETTERS.findall(text.casefold()))


def _shorten(text: str) -> str:
    return text if len(text) <= _SHOWN_CHARACTERS else f"{text[:_SHOWN_CHARACTERS].rstrip()}…"
