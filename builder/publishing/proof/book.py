"""Proof of a finished book: every caution stands in it, and every link leads somewhere."""

import hashlib
import json
import posixpath
import zipfile
from collections.abc import Iterator, Mapping
from io import BytesIO
from xml.etree import ElementTree
from xml.etree.ElementTree import Element

from builder import rules
from builder.course.course import Course
from builder.findings import Finding, Place, sort_findings
from builder.publishing.book.places import SAFETY, lesson_file
from builder.publishing.cards.run import Shelf
from builder.publishing.pages.excerpt import Excerpts
from builder.publishing.pages.links import Site
from builder.publishing.proof.address import split_address
from builder.publishing.proof.lesson_pages import list_lost_words, tell_lost_words
from builder.publishing.proof.read_back import fold_text
from builder.publishing.views.inline import no_link, render_inline, strip_tags
from builder.publishing.views.long_text import render_long
from builder.work.digest import digest

_SVG = "{http://www.w3.org/2000/svg}"
_POINTERS = ("href", "src")
_AGAIN = "build again, and report it as a fault of the tool if it stays"


def find_book_faults(
    course: Course, content: bytes, excerpts: Excerpts | None = None, shelf: Shelf | None = None
) -> tuple[Finding, ...]:
    """Read a finished book back and return what it lacks.

    On the ``shelf`` lies what the same chapters lacked before. Whoever has the course's
    ``excerpts`` brings them along.
    """
    with zipfile.ZipFile(BytesIO(content)) as book:
        names = frozenset(book.namelist())
        texts = {
            posixpath.basename(name): book.read(name)
            for name in sorted(names)
            if name.endswith(".xhtml")
        }
    chapters = {file: _parse(text) for file, text in texts.items()}
    safety = _read_words(chapters[SAFETY]) if SAFETY in chapters else ""
    return sort_findings(
        (
            *_find_lost_notices(course, safety),
            *_find_broken_links(chapters, {posixpath.basename(name) for name in names}),
            *_find_lost_words(excerpts or Excerpts(Site(course)), texts, shelf),
        )
    )


def _find_lost_words(
    excerpts: Excerpts, texts: Mapping[str, bytes], shelf: Shelf | None
) -> Iterator[Finding]:
    """Report what chapters lack of their lessons; judged anew where either has changed."""
    for lesson in excerpts.site.course.lessons:
        text = texts.get(lesson_file(lesson.id), b"")
        excerpt, page_key = excerpts.cut(lesson)
        key = digest("lost in chapter", page_key, hashlib.sha256(text).hexdigest())
        piece = shelf.get(key) if shelf else None
        if piece is None:
            letters = fold_text(_read_words(_parse(text)))
            lost = list_lost_words(excerpt.make_site().course, excerpt.lesson, letters)
            piece = json.dumps(lost).encode()
            if shelf:
                shelf.put(key, piece)
        yield from tell_lost_words(lesson, json.loads(piece), "chapter of the book")


def _parse(chapter: bytes) -> Element:
    """Read a chapter; one that is no XML is empty, and so lacks all that it must say."""
    try:
        return ElementTree.fromstring(chapter)  # noqa: S314  # written by us a moment ago
    except ElementTree.ParseError:
        return Element("html")


def _find_lost_notices(course: Course, text: str) -> Iterator[Finding]:
    """Report the course's caution and all notices of which the safety chapter lacks any word."""
    letters = fold_text(text)
    if fold_text(course.settings.caution) not in letters:
        fact = "the finished book's safety chapter lacks the course's caution"
        yield rules.NOTICE_MISSING.at(course.settings.at("caution"), fact, _AGAIN)
    titles = course.titles
    for notice in course.notices:
        short, adapt = (render_inline(one, titles, no_link) for one in (notice.short, notice.adapt))
        long = render_long(notice.long, titles, no_link).split("\n")
        for line in (notice.title, *map(strip_tags, (short, adapt, *long))):
            if fold_text(line) not in letters:
                fact = f'the finished book\'s safety chapter lacks "{line}"'
                yield rules.NOTICE_MISSING.at(notice.at("short"), fact, _AGAIN)


def _find_broken_links(chapters: Mapping[str, Element], files: set[str]) -> Iterator[Finding]:
    anchors = {
        file: {element.get("id", "") for element in root.iter()} for file, root in chapters.items()
    }
    for file, root in chapters.items():
        for target in _list_targets(root):
            parts = split_address(target)
            if parts.scheme or parts.netloc:
                continue
            aim = parts.path or file
            if aim not in files or (parts.fragment and parts.fragment not in anchors.get(aim, ())):
                fact = f'"{target}" leads nowhere in the book'
                yield rules.BROKEN_LINK.at(Place(file), fact, _AGAIN)


def _list_targets(root: Element) -> Iterator[str]:
    for element in root.iter():
        yield from (element.attrib[name] for name in _POINTERS if name in element.attrib)


def _read_words(element: Element) -> str:
    """Return the words of a chapter; what only a drawing tells doesn't count."""
    if element.tag == f"{_SVG}svg":
        return ""
    parts = [element.text or ""]
    for child in element:
        parts += (_read_words(child), child.tail or "")
    return "".join(parts)
