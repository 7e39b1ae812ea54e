"""What a studio wishes for its course, each wish checked before anything is made."""

import re
from dataclasses import dataclass, replace
from pathlib import Path

from builder.course.address import check_address
from builder.course.course import Colours
from builder.course.names import suggest
from builder.errors import InvalidValueError
from builder.sums.contrast import LEAST_FOR_TEXT, contrast_ratio
from builder.sums.paper import PAPERS, find_usual_card
from builder.sums.shades import darken_until_read

COLOUR_WORDS = {
    "teal": "#1f5e5b",
    "blue": "#23568c",
    "plum": "#6d3a6e",
    "brick": "#8c3b2e",
    "green": "#3f6212",
    "grey": "#4a5257",
}
"""Accent colours by a plain word, each dark enough to be read on paper."""
LONGEST_NAME = 60
LONGEST_CONTACT = 120
_WHITE = "#ffffff"
_COLOUR = re.compile(r"#?([0-9a-fA-F]{6})")
_LANGUAGE = re.compile(r"[A-Za-z]{2,8}(-[A-Za-z0-9]{1,8})*")
_JOINERS = "\u200c\u200d"
"""Invisible, but scripts and emoji need them inside a word."""
_PAST_CYRILLIC = 0x0530
_MARKS = range(0x1E00, 0x2070)
"""More Latin and Greek letters, dashes and quotation marks."""


@dataclass(frozen=True, slots=True)
class Wishes:
    """What the course is to be; what is empty stays as the starter has it."""

    name: str
    contact: str = ""
    accent: str = ""
    paper: str = ""
    address: str = ""
    language: str = ""
    strands: tuple[str, ...] = ()
    """Ids or titles; none for all."""


def check_wishes(wishes: Wishes) -> Wishes:
    """Return the wishes in their exact form; raise InvalidValueError on the first bad one."""
    return replace(
        wishes,
        name=read_name(wishes.name),
        contact=read_line(wishes.contact, "contact", LONGEST_CONTACT),
        accent=read_accent(wishes.accent) if wishes.accent else "",
        paper=read_paper(wishes.paper) if wishes.paper else find_usual_card(wishes.language),
        address=read_address(wishes.address) if wishes.address else "",
        language=read_language(wishes.language) if wishes.language else "",
    )


def read_name(text: str) -> str:
    """Read the studio's name, on one line."""
    name = read_line(text, "name", LONGEST_NAME)
    if not any(character.isalnum() for character in name):
        raise InvalidValueError(
            f'the name "{name}" has no letter or digit', "give the name of the studio"
        )
    return name


def read_line(text: str, what: str, longest: int) -> str:
    """Read a text of one line that can be printed."""
    line = " ".join(text.split())
    for character in line:
        if not character.isprintable() and character not in _JOINERS:
            raise InvalidValueError(
                f"the {what} has a character that can't be printed (U+{ord(character):04X})",
                "take it out",
            )
    if len(line) > longest:
        raise InvalidValueError(
            f"the {what} has {len(line)} characters", f"use at most {longest}, so that it fits"
        )
    return line


def read_accent(text: str) -> str:
    """Read the accent colour, by its word or as #rrggbb; it must be read on paper and white."""
    word = text.strip().lower()
    found = _COLOUR.fullmatch(COLOUR_WORDS.get(word, word))
    if found is None:
        raise InvalidValueError(
            f'"{text.strip()}" is no colour here',
            f"give #rrggbb such as #1f5e5b, or one of {', '.join(COLOUR_WORDS)}",
        )
    accent = f"#{found[1]}"
    grounds = (Colours().paper, _WHITE)
    least = min(contrast_ratio(accent, ground) for ground in grounds)
    if least < LEAST_FOR_TEXT:
        darker = darken_until_read(accent, grounds, LEAST_FOR_TEXT)
        raise InvalidValueError(
            f"the colour {accent} is too pale to be read: its contrast with paper is "
            f"{_floor(least)}:1, and text needs {LEAST_FOR_TEXT:g}:1",
            f'give "{darker}", the nearest darker shade that can be read',
        )
    return accent


def read_paper(text: str) -> str:
    """Read the size that cards are printed in."""
    word = "-".join(text.lower().split())
    if word not in PAPERS:
        cure = suggest(word, PAPERS) or f"give one of {', '.join(PAPERS)}"
        raise InvalidValueError(f'"{text.strip()}" is no paper that cards come in', cure)
    return word


def read_address(text: str) -> str:
    """Read where the site will stand on the web, with a slash at the end."""
    address = check_address(text)
    return address if address.endswith("/") else f"{address}/"


def read_language(text: str) -> str:
    """Read the language of the course as BCP 47 writes it."""
    language = text.strip()
    if not _LANGUAGE.fullmatch(language):
        raise InvalidValueError(f'"{language}" is no language tag', "give one such as en-GB")
    return language


def name_after(folder: Path) -> str:
    """Make a studio's name out of its folder's, for a studio that gives none."""
    words = re.sub(r"[\W_]+", " ", folder.name).strip()[:LONGEST_NAME]
    return f"{words[0].upper()}{words[1:]}".strip() if words else "My studio"


def find_rare_signs(text: str) -> str:
    """Return the signs that the cards' own font may lack: no Latin, Greek or Cyrillic ones."""
    rare = (
        sign
        for sign in text
        if ord(sign) >= _PAST_CYRILLIC and not _MARKS.start <= ord(sign) < _MARKS.stop
    )
    return "".join(dict.fromkeys(sign for sign in rare if sign not in _JOINERS))


def _floor(ratio: float) -> str:
    """Write a contrast with two digits, never rounded up over a limit it doesn't reach."""
    return f"{int(ratio * 100) / 100:g}"
