"""The catalogues of the tool's own words: whole, in step with the source, and true to its gaps."""

import re
from collections import Counter
from pathlib import Path

import pytest
from babel.messages.catalog import Message

from builder.language import language_of, spoken_languages
from tests.catalogues import WORDS, find_words, read

PATHS = sorted(WORDS.glob("*.po"))
_GAP = re.compile(r"\{[a-z_]+\}")
_TAG = re.compile(r"</?[a-z][^>]*>")


def forms(value: object) -> tuple[str, ...]:
    return tuple(map(str, value)) if isinstance(value, tuple | list) else (str(value or ""),)


def messages(path: Path) -> list[Message]:
    return [message for message in read(path) if message.id]


def test_the_tool_speaks_english_german_and_spanish() -> None:
    assert spoken_languages() == ("en", "de", "es")


@pytest.mark.parametrize("path", PATHS, ids=lambda path: path.stem)
def test_a_catalogue_has_each_word_of_the_tool_and_no_other(path: Path) -> None:
    wanted = {(str(m.id), m.context) for m in find_words() if m.id}
    assert {(str(m.id), m.context) for m in messages(path)} == wanted


@pytest.mark.parametrize("path", PATHS, ids=lambda path: path.stem)
def test_every_text_is_translated(path: Path) -> None:
    empty = [m.id for m in messages(path) if not all(forms(m.string))]
    assert empty == []
    assert [m.id for m in messages(path) if m.fuzzy] == []


@pytest.mark.parametrize("path", PATHS, ids=lambda path: path.stem)
@pytest.mark.parametrize("pattern", [_GAP, _TAG], ids=["gaps", "tags"])
def test_gaps_and_tags_are_those_of_the_english(path: Path, pattern: re.Pattern[str]) -> None:
    for message in messages(path):
        wanted = Counter(pattern.findall(forms(message.id)[-1]))
        for form in forms(message.string):
            assert Counter(pattern.findall(form)) == wanted, (message.id, form)


@pytest.mark.parametrize("path", PATHS, ids=lambda path: path.stem)
def test_scripts_get_their_words_and_no_others(path: Path) -> None:
    known = language_of(path.stem).for_scripts
    assert known["Go on"] not in ("", "Go on")
    assert len(known) < len(messages(path)) / 2
