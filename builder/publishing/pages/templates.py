"""The templates of pages: values in, finished Markdown out."""

import json
import re
from functools import cache

from jinja2 import Environment
from markupsafe import Markup

from builder.language import Language
from builder.publishing.environment import open_templates

_MARKDOWN_SIGNS = re.compile(r"([\\`*_{}\[\]()#+!|~-])")
_BLANK_LINES = re.compile(r"\n\s*\n")
_ENTITIES = (("&", "&amp;"), ("<", "&lt;"), (">", "&gt;"))


def render_page(name: str, language: Language, /, **values: object) -> str:
    """Fill a page template and return the page as Markdown with HTML blocks.

    Templates say the tool's words by ``say`` and its kin.
    """
    template = _environment().get_template(name)
    return template.render(values, **language.sayings).strip() + "\n"


def render_block(name: str, language: Language, /, **values: object) -> Markup:
    """Fill a template into one block of HTML without blank lines, which would end it."""
    block = _BLANK_LINES.sub("\n", render_page(name, language, **values)).strip()
    return Markup(block)  # noqa: S704  # templates escape their values


def write_json(value: object) -> Markup:
    """Return a value as JSON that a script of the page reads."""
    text = json.dumps(value, ensure_ascii=False, separators=(",", ":"))
    # A browser ends a script at the first "</", whatever the script says.
    return Markup(text.replace("<", "\\u003c"))  # noqa: S704  # JSON in a script


def write_header(title: str, description: str = "", for_theme: str = "") -> Markup:
    """Write the header of a page; JSON strings are YAML strings too.

    ``for_theme`` is one more line, such as a wish to hide the contents at the side.
    """
    lines = [f"title: {_quote(title)}"]
    if description:
        lines.append(f"description: {_quote(description)}")
    if for_theme:
        lines.append(for_theme)
    return Markup("\n".join(("---", *lines, "---")))  # noqa: S704  # no HTML here


def escape_for_host(text: str) -> str:
    """Return a plain text for hosts that put it into a page as it comes."""
    return text.replace("<", "&lt;").replace(">", "&gt;").replace('"', "&quot;")


def escape_markdown(text: str) -> Markup:
    """Return a plain text so that Markdown shows it as it is."""
    for sign, entity in _ENTITIES:
        text = text.replace(sign, entity)
    return Markup(_MARKDOWN_SIGNS.sub(r"\\\1", text))  # noqa: S704  # escaped above


def _quote(text: str) -> str:
    return json.dumps(escape_for_host(text), ensure_ascii=False)


@cache
def _environment() -> Environment:
    environment = open_templates("pages")
    environment.filters["md"] = escape_markdown
    return environment
