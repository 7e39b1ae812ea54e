"""Languages made in a test: of a few words, or of all words of the tool, their letters veiled."""

import re
from collections.abc import Mapping
from functools import cache
from gettext import GNUTranslations
from io import BytesIO

from babel import Locale
from babel.messages.catalog import Catalog
from babel.messages.mofile import write_mo

from builder.language import Language
from tests.catalogues import find_words

VEIL = "ж"
"""Stands for every letter, so that what is left in A to Z was never said."""
_LETTERS_OUTSIDE_BRACES = re.compile(r"[A-Za-z](?![^{}]*\})")


def make_language(tag: str, words: Mapping[str, str]) -> Language:
    """Make a language from English texts and what it says for them, whatever the context."""
    catalogue = Catalog(locale=tag)
    for found in find_words():
        if isinstance(found.id, str) and found.id in words:
            catalogue.add(found.id, words[found.id], context=found.context)
    return _compile(tag, catalogue)


@cache
def make_veiled() -> Language:
    """Make a language that has a word for everything, in letters that English doesn't have."""
    catalogue = Catalog(locale="de")
    for found in find_words():
        texts = (found.id,) if isinstance(found.id, str) else found.id
        veiled = [_LETTERS_OUTSIDE_BRACES.sub(VEIL, text) for text in texts]
        if all(texts):
            string = veiled[0] if isinstance(found.id, str) else veiled
            catalogue.add(found.id, string, context=found.context)
    return _compile("de", catalogue)


def _compile(tag: str, catalogue: Catalog) -> Language:
    compiled = BytesIO()
    write_mo(compiled, catalogue)
    compiled.seek(0)
    return Language(tag, Locale.parse(tag, sep="-"), GNUTranslations(compiled), {})
