"""A translation held against its original: what is missing, what differs, what changed since."""

import re
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from difflib import SequenceMatcher

from builder import rules
from builder.findings import Finding, Place
from builder.reading.translation.numbers_and_sides import (
    knows_numbers,
    list_numbers,
    swaps_sides,
)
from builder.reading.translation.parts import LONG_TEXT, Parts

_LETTERS = re.compile(r"[^\W\d_]+")
_CAUTIONS = ("caution", "stop if")
"""Parts that keep people from harm, besides every part of a notice."""
_LEAST_COPIED = 3
"""Words from which a text that is the same in both languages wasn't translated."""
_SHOWN_CHARACTERS = 160


@dataclass(frozen=True, slots=True)
class Pair:
    """An original and its translation."""

    original: Parts
    translated: Parts
    kept: Parts | None
    """The original as it was when it was translated; None where nobody kept it."""
    place: Callable[[str, int], Place]
    """Where a part of the translation stands, by its name and its number from 0."""
    source: str
    """The original's file."""
    language: str
    original_language: str = ""
    """BCP 47, as ``language``."""
    is_free: bool = False
    """A page may say less than its original, and say it otherwise."""
    is_notice: bool = False
    is_drill: bool = False
    """True where people move and breathe by it: a lesson or a notice."""


def compare(pair: Pair) -> Iterator[Finding]:
    """Report what a translation lacks or says otherwise than its original does."""
    for name in {**pair.original, **pair.translated}:
        before, after = pair.original.get(name, ()), pair.translated.get(name, ())
        if not pair.is_free:
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
    languages = root(pair.original_language), root(pair.language)
    if swaps_sides(before, after, languages):
        yield rules.SIDES_SWAPPED.at(
            pair.place(*part),
            f'"{part[0]}" has another side than in {pair.source}',
            "say left and right as the original does",
            f'there: "{_shorten(before)}"',
            f'here: "{_shorten(after)}"',
        )
    with_words = pair.is_drill and all(knows_numbers(language) for language in languages)
    wanted, found = (
        list_numbers(text, language, with_words=with_words)
        for text, language in zip((before, after), languages, strict=True)
    )
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
    copied = {_fold(text) for text in before}
    for index, text in enumerate(after):
        is_caution = pair.is_notice or name in _CAUTIONS
        rule = rules.NOTICE_UNTRANSLATED if is_caution else rules.TRANSLATION_MISSING
        if _fold(text) in copied and len(_LETTERS.findall(text)) >= _LEAST_COPIED:
            yield rule.at(
                pair.place(name, index),
                f'"{name}" still says "{_shorten(text)}"',
                f"translate it into {pair.language}",
            )


def _find_changes(pair: Pair) -> Iterator[Finding]:
    """Report what the original says otherwise since it was translated."""
    if pair.kept is None:
        yield rules.TRANSLATION_STALE.at(
            pair.place("title", 0),
            f"nobody noted which state of {pair.source} this translates",
            f"compare the two, then run: tempoleaf translate {pair.language} --agree",
        )
        return
    changes = list(list_changes(pair.kept, pair.original))
    if changes:
        is_caution = pair.is_notice or any(change.startswith(_CAUTIONS) for change in changes)
        rule = rules.CAUTION_STALE if is_caution else rules.TRANSLATION_STALE
        yield rule.at(
            pair.place("title", 0),
            f"{pair.source} has changed since this was translated",
            f"bring it in step, then run: tempoleaf translate {pair.language} --agree",
            *changes,
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


def root(tag: str) -> str:
    """Return a language without country and script."""
    return tag.partition("-")[0].lower()


def _shorten(text: str) -> str:
    return text if len(text) <= _SHOWN_CHARACTERS else f"{text[:_SHOWN_CHARACTERS].rstrip()}…"
