"""The templates of the book: values in, XML out."""

import re
from html import escape, unescape
from re import Match

from builder.language import Language
from builder.publishing.environment import open_templates

_NOT_XML = re.compile("[^\t\n\r\x20-\ud7ff\ue000-\ufffd\U00010000-\U0010ffff]")
"""Signs that XML 1.0 doesn't allow, not even escaped."""

_ENTITY = re.compile(r"&#?\w+;")
_KNOWN_TO_XML = frozenset({"&amp;", "&lt;", "&gt;", "&quot;", "&apos;"})


def render(name: str, language: Language, /, **values: object) -> str:
    """Fill a template of the book; it says the tool's words by ``say`` and its kin."""
    template = open_templates("epub").get_template(name)
    told = {"language": language, **language.sayings, **values}
    return _NOT_XML.sub("", _ENTITY.sub(_spell, template.render(told))).strip() + "\n"


def _spell(match: Match[str]) -> str:
    """Write a sign by its name as the sign: XML knows five names, authors those of HTML."""
    if match[0] in _KNOWN_TO_XML:
        return match[0]
    return escape(unescape(match[0]))
