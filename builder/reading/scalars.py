"""The kinds of single values that a header may hold."""

import re
from datetime import date
from typing import Annotated, Any
from unicodedata import category

from pydantic import AfterValidator, BeforeValidator, Field, Strict, WithJsonSchema
from pydantic_core import PydanticCustomError

from builder.course.address import check_address
from builder.course.tempo import NATURAL, Tempo
from builder.errors import InvalidValueError
from builder.sums.version import LENGTH, SIGNS

SLUG = r"^[a-z0-9]+(-[a-z0-9]+)*$"
LONGEST_ID = 64
COLOUR = r"^#[0-9a-fA-F]{6}$"
LANGUAGE = r"^[A-Za-z]{2,8}(-[A-Za-z0-9]{1,8})*$"
LONGEST_TEXT = 2000
LONGEST_TITLE = 80
VERSION = f"^[{SIGNS}]{{{LENGTH}}}$"
_DAY = re.compile(r"[0-9]{4}-[0-9]{2}-[0-9]{2}")


def read_tempo(value: object) -> object:
    """Turn a tempo's text into a Tempo, the word for no count into None."""
    if not isinstance(value, str):
        shown = {type(None): "empty", list: "a list", dict: "a mapping"}.get(type(value), value)
        raise InvalidValueError(
            f"the tempo is {shown}, not text", f"give four phases such as 4-1-4-1, or {NATURAL}"
        )
    if value.strip().lower() == NATURAL:
        return None
    return Tempo.parse(value)


def _read_text(value: object) -> object:
    """Fold the white space of a text, so that it prints in one line."""
    return re.sub(r"\s+", " ", value).strip() if isinstance(value, str) else value


def _need_something_seen(text: str) -> str:
    """Refuse a text of joiners and marks alone, which prints as nothing."""
    if not any(category(sign)[0] in "LNPS" for sign in text):
        raise InvalidValueError("nothing in this text can be seen", "write at least a word")
    return text


def _read_day(value: object) -> object:
    """Let only a plain date through: a number is no day, and a time of day means nothing here."""
    if isinstance(value, str) and _DAY.fullmatch(value):
        return value
    raise PydanticCustomError("date_form", "no date")


Words = Annotated[str, Field(max_length=LONGEST_TEXT), BeforeValidator(_read_text)]
"""Text of one line that may be missing."""
Text = Annotated[
    str,
    Field(min_length=1, max_length=LONGEST_TEXT),
    AfterValidator(_need_something_seen),
    BeforeValidator(_read_text),
]
Title = Annotated[
    str,
    Field(min_length=1, max_length=LONGEST_TITLE),
    AfterValidator(_need_something_seen),
    BeforeValidator(_read_text),
]
"""What stands over a card, on a map and in a list, in a line or two."""
Address = Annotated[str, AfterValidator(lambda text: check_address(text) if text else text)]
Slug = Annotated[str, Field(pattern=SLUG, max_length=LONGEST_ID)]
Version = Annotated[str, Field(pattern=VERSION)]
"""A version code of a card."""
Day = Annotated[date, Strict(False), BeforeValidator(_read_day)]
_SECONDS = r"[0-9]+(\.[05])?"
_HOLD = rf"({_SECONDS}|pause)"
TempoText = Annotated[
    Any,
    BeforeValidator(read_tempo),
    WithJsonSchema(
        {
            "type": "string",
            "description": "inhale-hold-exhale-hold in seconds, such as 4-1-4-1, or natural",
            "pattern": rf"^natural$|^{_SECONDS}-{_HOLD}-{_SECONDS}-{_HOLD}$",
        }
    ),
]
