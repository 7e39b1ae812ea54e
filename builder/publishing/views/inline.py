"""Inline Markdown of a lesson to HTML, with the names of lessons as links or plain titles."""

import re
from collections.abc import Callable, Mapping
from functools import cached_property
from html import unescape
from re import Match
from xml.etree.ElementTree import Element, SubElement

from markdown import Markdown
from markdown.inlinepatterns import InlineProcessor
from markupsafe import Markup

from builder.reading.browser_address import Use, find_address_fault

Link = Callable[[str], str | None]
"""Lesson id to the address of its page; None where there is no page to go to."""

_LESSON_NAME = r"\[\[([^\[\]]+)\]\]"
_NOT_INLINE = (
    *("image_link", "image_reference", "short_image_ref"),
    *("reference", "short_reference", "automail", "html", "entity"),
)
"""What lesson text has no use for; raw HTML then comes out as the characters it is made of."""
_SAFE_ADDRESS = re.compile(r"(?:https?://|mailto:)[^\x00-\x20]*|[^\x00-\x20:]*", re.IGNORECASE)
_TAG = re.compile(r"<[^>]*>")
_PLAIN = re.compile(r"(?:[^\W_]|[ ,.;:?()'\"’–-])*(?<! )")
"""A text that Markdown would give back as it came; most are."""


class InlineRenderer:
    """Turns inline Markdown into HTML; make one for many texts."""

    def __init__(self, titles: Mapping[str, str], link: Link) -> None:
        self._titles = titles
        self._link = link

    @cached_property
    def _markdown(self) -> Markdown:
        markdown = Markdown()
        for name in _NOT_INLINE:
            markdown.inlinePatterns.deregister(name)
        names = LessonNamePattern(self._titles, self._link)
        markdown.inlinePatterns.register(names, "lesson-name", 185)
        return markdown

    def render(self, text: str) -> Markup:
        """Return a text as HTML that stands inside a paragraph."""
        if _PLAIN.fullmatch(text):
            return Markup(text)  # noqa: S704  # nothing in it means anything in HTML or Markdown
        return self.render_by_markdown(text)

    def render_by_markdown(self, text: str) -> Markup:
        """Do the same whatever the text is."""
        self._markdown.reset()
        root = Element("div")
        SubElement(root, "p").text = text
        for name in ("inline", "unescape"):
            self._markdown.treeprocessors[name].run(root)
        drop_unsafe_links(root)
        html = self._markdown.serializer(root[0])
        for post in self._markdown.postprocessors:
            html = post.run(html)
        return Markup(html.removeprefix("<p>").removesuffix("</p>"))  # noqa: S704  # escaped above


def render_inline(text: str, titles: Mapping[str, str], link: Link) -> Markup:
    """Turn one text of inline Markdown into HTML."""
    return InlineRenderer(titles, link).render(text)


def no_link(_lesson_id: str) -> None:
    """Link no lesson: on paper a title is enough."""


def strip_tags(html: str) -> str:
    """Return the words of a piece of HTML."""
    return unescape(_TAG.sub("", html))


class LessonNamePattern(InlineProcessor):
    """``[[lesson-id]]`` as the title of that lesson."""

    def __init__(self, titles: Mapping[str, str], link: Link) -> None:
        super().__init__(_LESSON_NAME)
        self._titles = titles
        self._link = link

    def handleMatch(  # type: ignore[override]  # noqa: N802  # the library's name
        self, match: Match[str], _data: str
    ) -> tuple[Element, int, int]:
        """Make the link, or a plain span where the lesson has no page."""
        lesson_id = match.group(1).strip()
        address = self._link(lesson_id) if lesson_id in self._titles else None
        element = Element("span") if address is None else Element("a", href=address)
        element.text = self._titles.get(lesson_id, lesson_id)
        return element, match.start(0), match.end(0)


def drop_unsafe_links(root: Element) -> None:
    """Take the address from each link that would run something, or open it on the machine."""
    for link in root.iter("a"):
        address = unescape(link.get("href", ""))
        if not _SAFE_ADDRESS.fullmatch(address) or find_address_fault(address, Use.LINK):
            del link.attrib["href"]
