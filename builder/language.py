"""The tool's own words in the language of a course, and its dates, numbers and lists.

English stands in the source; every other language has a catalogue in the standard form of
gettext under ``site_templates/words``. Where there is no catalogue, the words, dates and numbers
are English, so that a sentence never mixes two languages.
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from datetime import date
from functools import cache
from gettext import GNUTranslations, NullTranslations
from io import BytesIO

from babel import Locale, UnknownLocaleError
from babel.dates import format_date, format_skeleton
from babel.messages.catalog import Catalog
from babel.messages.mofile import write_mo
from babel.messages.pofile import read_po
from babel.numbers import format_decimal
from markupsafe import Markup

from builder.course.language_tag import root_of
from builder.resources import find_templates

WORDS_FOLDER = "words"
_SCRIPT = ".js"
_HIGHEST_PRECISION = 3
_SOURCE = "en-GB"
_INCH_TERRITORIES = frozenset({"LR", "MM", "US"})
"""Unicode CLDR, supplemental data on measurement systems; from memory."""


def mark(text: str) -> str:
    """Return a text as it is; catalogues take it up, and somebody says it later."""
    return text


@dataclass(frozen=True)
class Language:
    """A language that the tool speaks; ``language_of`` makes them."""

    tag: str
    """BCP 47, as the course gives it."""
    locale: Locale
    """Whose dates and numbers are used."""
    catalogue: NullTranslations = field(repr=False, compare=False)
    for_scripts: dict[str, str | list[str]] = field(repr=False, compare=False)
    """Words of the site's scripts: English to this language, plural forms as a list."""

    def __reduce__(self) -> tuple[Callable[[str], "Language"], tuple[str]]:
        """Travel to a worker as a tag: every tempoleaf has the words."""
        return language_of, (self.tag,)

    @property
    def name(self) -> str:
        """Return what the language calls itself, such as Español."""
        name = str(self.locale.get_language_name(self.locale.language) or self.tag)
        return f"{name[:1].upper()}{name[1:]}"

    def name_of(self, tag: str) -> str:
        """Name another language in this one's words, such as inglés; else return its tag."""
        return str(self.locale.languages.get(root_of(tag), tag))

    def say(self, text: str, /, **values: object) -> str:
        """Say a text, with each ``{name}`` in it filled."""
        said = self.catalogue.gettext(text)
        return said.format(**values) if values else said

    def say_as(self, context: str, text: str, /, **values: object) -> str:
        """Say a text that other languages say otherwise elsewhere; ``context`` tells where."""
        said = self.catalogue.pgettext(context, text)
        return said.format(**values) if values else said

    def say_many(self, one: str, many: str, count: float, /, **values: object) -> str:
        """Say a text with a number in it; ``{count}`` is the number.

        A number with a half takes the form of many, as it does in each language we speak.
        """
        said = self.catalogue.ngettext(one, many, int(count) if count == int(count) else 2)
        return said.format(count=self.number(count), **values)

    def say_html(self, text: str, /, **values: object) -> Markup:
        """Say a text that holds markup of ours; what is filled in gets escaped."""
        said = Markup(self.catalogue.gettext(text))  # noqa: S704  # our own words
        return said.format(**values) if values else said

    def number(self, value: float) -> str:
        """Write a number with the language's decimal sign and no needless digits."""
        return format_decimal(round(value, _HIGHEST_PRECISION), locale=self.locale)

    def short_date(self, day: date) -> str:
        """Write a date in few signs and without its year, such as 1 Oct."""
        return format_skeleton("MMMd", day, locale=self.locale)

    def weekday(self, day: date) -> str:
        """Write a day of a month with its weekday in few signs, such as Thu 1."""
        return format_skeleton("Ed", day, locale=self.locale)

    def date(self, day: date) -> str:
        """Write a date in full, such as 1 October 2026."""
        return format_date(day, "long", locale=self.locale)

    def all_of(self, words: Sequence[str]) -> str:
        """Join words as a sentence does: a, b and c."""
        return self._join(words, self.say("{before} and {last}"))

    def one_of(self, words: Sequence[str]) -> str:
        """Join words as a choice: a, b or c."""
        return self._join(words, self.say("{before} or {last}"))

    @property
    def sayings(self) -> dict[str, Callable[..., str]]:
        """Return what templates say words with, by name."""
        return {
            "say": self.say,
            "say_as": self.say_as,
            "say_html": self.say_html,
            "say_many": self.say_many,
        }

    @property
    def has_inches(self) -> bool:
        """Tell whether its country measures people in feet, inches and pounds."""
        return self.locale.territory in _INCH_TERRITORIES

    @property
    def is_right_to_left(self) -> bool:
        """Tell whether the words run from right to left."""
        return self.locale.text_direction == "rtl"

    def _join(self, words: Sequence[str], end: str) -> str:
        if len(words) < 2:
            return "".join(words)
        return end.format(before=", ".join(words[:-1]), last=words[-1])


@cache
def language_of(tag: str) -> Language:
    """Return the language of a BCP 47 tag such as ``es-MX``; English where we have no words."""
    root = root_of(tag)
    if root == root_of(_SOURCE):
        return Language(tag, _find_locale(tag), NullTranslations(), {})
    if root not in spoken_languages():
        return Language(tag, _find_locale(_SOURCE), NullTranslations(), {})
    catalogue = read_catalogue(root)
    compiled = BytesIO()
    write_mo(compiled, catalogue)
    compiled.seek(0)
    return Language(tag, _find_locale(tag), GNUTranslations(compiled), _list_for_scripts(catalogue))


@cache
def spoken_languages() -> tuple[str, ...]:
    """Return the languages that the tool has words in, English first."""
    found = sorted(path.stem for path in (find_templates() / WORDS_FOLDER).glob("*.po"))
    return (root_of(_SOURCE), *found)


def read_catalogue(root: str) -> Catalog:
    """Read the catalogue of a language such as ``es``."""
    with (find_templates() / WORDS_FOLDER / f"{root}.po").open("rb") as file:
        return read_po(file, locale=root)


def _find_locale(tag: str) -> Locale:
    """Return the locale nearest to a tag."""
    for name in (tag, root_of(tag), _SOURCE):
        try:
            return Locale.parse(name, sep="-")
        except (UnknownLocaleError, ValueError):
            continue
    return Locale("en", "GB")


def _list_for_scripts(catalogue: Catalog) -> dict[str, str | list[str]]:
    """Return the words that scripts say, by their English."""
    listed: dict[str, str | list[str]] = {}
    for message in catalogue:
        if not any(path.endswith(_SCRIPT) for path, _ in message.locations):
            continue
        if isinstance(message.id, str):
            listed[message.id] = str(message.string)
        else:
            listed[message.id[0]] = [str(form) for form in message.string or ()]
    return listed
