"""The templates of the book: values in, XML out."""

import re
from functools import cache

from jinja2 import Environment, FileSystemLoader, StrictUndefined

from builder.language import Language
from builder.resources import find_templates

_NOT_XML = re.compile("[^\t\n\r\x20-\ud7ff\ue000-\ufffd\U00010000-\U0010ffff]")
"""Signs that XML 1.0 doesn't allow, not even escaped."""


def render(name: str, language: Language, /, **values: object) -> str:
    """Fill a template of the book; it says the tool's words by ``say`` and its kin."""
    template = _environment().get_template(name)
    told = {"language": language, **language.sayings, **values}
    return _NOT_XML.sub("", template.render(told)).strip() + "\n"


@cache
def _environment() -> Environment:
    return Environment(
        loader=FileSystemLoader(find_templates() / "epub"),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
    )
