"""Block Markdown of a caution to HTML that is XML too: paragraphs, lists, tables, no raw HTML."""

from collections.abc import Mapping

from markdown import Markdown
from markupsafe import Markup

from builder.publishing.views.inline import LessonNamePattern, Link

_EXTENSIONS = ("tables", "fenced_code")
"""The same as on pages."""


def render_long(text: str, titles: Mapping[str, str], link: Link) -> Markup:
    """Return a text's paragraphs and lists; raw HTML comes out as the characters it is made of."""
    markdown = Markdown(extensions=_EXTENSIONS)
    markdown.preprocessors.deregister("html_block")
    for name in ("html", "entity", "image_link", "image_reference", "short_image_ref"):
        markdown.inlinePatterns.deregister(name)
    markdown.inlinePatterns.register(LessonNamePattern(titles, link), "lesson-name", 185)
    return Markup(markdown.convert(text))  # noqa: S704  # escaped above
