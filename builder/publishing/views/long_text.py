"""Block Markdown of a caution to HTML that is XML too: paragraphs, lists, tables, no raw HTML."""

from collections.abc import Mapping
from xml.etree.ElementTree import Element

from markdown import Markdown
from markdown.treeprocessors import Treeprocessor
from markupsafe import Markup

from builder.publishing.views.inline import LessonNamePattern, Link, drop_unsafe_links

_EXTENSIONS = ("tables", "fenced_code")
"""The same as on pages."""
_AFTER_ALL = -1


class _SafeLinks(Treeprocessor):
    """Takes from links what no reader of books may follow."""

    def run(self, root: Element) -> None:
        """Look at every link, when its address is as it will be."""
        drop_unsafe_links(root)


def render_long(text: str, titles: Mapping[str, str], link: Link) -> Markup:
    """Return a text's paragraphs and lists; raw HTML comes out as the characters it is made of."""
    markdown = Markdown(extensions=_EXTENSIONS)
    markdown.preprocessors.deregister("html_block")
    for name in ("html", "entity", "image_link", "image_reference", "short_image_ref"):
        markdown.inlinePatterns.deregister(name)
    markdown.inlinePatterns.register(LessonNamePattern(titles, link), "lesson-name", 185)
    markdown.treeprocessors.register(_SafeLinks(markdown), "safe-links", _AFTER_ALL)
    return Markup(markdown.convert(text))  # noqa: S704  # escaped above
