"""The book as one file: a zip whose parts and order EPUB 3.3 (W3C, 2023) lays down."""

import uuid
import zipfile
from collections.abc import Mapping
from datetime import UTC, datetime
from io import BytesIO

from builder.course.course import Course
from builder.language import Language, language_of
from builder.publishing.book.chapters import Chapter, flatten, make_chapters
from builder.publishing.book.lesson_chapters import write_lessons
from builder.publishing.book.places import (
    CONTENTS,
    COVER,
    COVER_PICTURE,
    FONT,
    GLOSSARY,
    SAFETY,
    STYLE,
    TITLE,
)
from builder.publishing.book.templates import render
from builder.publishing.build_time import read_build_time
from builder.publishing.pages.excerpt import Excerpts
from builder.publishing.pages.links import Site
from builder.resources import find_fonts, find_templates

_TYPE = "application/epub+zip"
_FOLDER = "EPUB"
_FIRST_DAY = (1980, 1, 1, 0, 0, 0)
"""The earliest that the format knows; the same course gives the same bytes."""
_PACKED = frozenset({".xhtml", ".opf", ".xml", ".css"})
"""What gets smaller by packing; pictures and fonts are packed already."""


def make_book(
    course: Course, cover: bytes, modified: datetime, lessons: Mapping[str, str] | None = None
) -> bytes:
    """Return a course as EPUB; ``cover`` is a picture as PNG.

    Whoever has the chapters of all ``lessons`` by their ids brings them along.
    """
    language = language_of(course.settings.language)
    chapters = make_chapters(course, lessons or write_lessons(Excerpts(Site(course))))
    contents = _write_contents(language, chapters)
    package = _write_package(course, language, (contents, *chapters), modified)
    files = {
        "META-INF/container.xml": render("container.xml", language).encode(),
        f"{_FOLDER}/package.opf": package.encode(),
        **{f"{_FOLDER}/{one.file}": one.text.encode() for one in (contents, *flatten(chapters))},
        f"{_FOLDER}/{STYLE}": (find_templates() / "epub" / STYLE).read_bytes(),
        f"{_FOLDER}/{FONT}": (find_fonts() / FONT).read_bytes(),
        f"{_FOLDER}/{COVER_PICTURE}": cover,
    }
    return _zip(files)


def find_modified(course: Course, epoch: str | None) -> datetime:
    """Return when a book was last changed: the time a build is told, or the newest day it knows.

    ``epoch`` is seconds as in SOURCE_DATE_EPOCH; without it, the same course gives the same time.
    """
    told = read_build_time(epoch)
    if told:
        return told
    reviews = [lesson.reviewed for lesson in course.lessons]
    reviews += [notice.reviewed for notice in course.notices]
    days = [review.on for review in reviews if review]
    days += [release.on for release in (course.ledger.releases if course.ledger else ())]
    day = max(days, default=course.day)
    return datetime(day.year, day.month, day.day, tzinfo=UTC)


def _write_contents(language: Language, chapters: tuple[Chapter, ...]) -> Chapter:
    title = language.say("Contents")
    first = next((one for one in chapters if one.parts), chapters[-1])
    landmarks = [
        ("cover", COVER, language.say("Cover")),
        ("titlepage", TITLE, language.say("Title page")),
        ("preface", SAFETY, language.say("Safety first")),
        ("toc", CONTENTS, title),
        ("bodymatter", first.file, first.title),
    ]
    if any(one.file == GLOSSARY for one in chapters):
        landmarks.append(("glossary", GLOSSARY, language.say("Glossary")))
    shown = [one for one in chapters if one.file not in (COVER, TITLE)]
    text = render("contents.xhtml", language, title=title, chapters=shown, landmarks=landmarks)
    return Chapter(CONTENTS, title, text)


def _write_package(
    course: Course, language: Language, chapters: tuple[Chapter, ...], modified: datetime
) -> str:
    """Write the package document; the contents come after the safety chapter."""
    contents, *others = chapters
    spine = [one.file for one in flatten(others)]
    spine.insert(spine.index(SAFETY) + 1, contents.file)
    return render(
        "package.opf",
        language,
        course=course,
        identifier=_identify(course),
        modified=f"{modified:%Y-%m-%dT%H:%M:%SZ}",
        contents=contents,
        chapters=flatten(others),
        spine=spine,
    )


def _identify(course: Course) -> uuid.UUID:
    """Return what stays the same through all editions of a course in one language."""
    settings = course.settings
    name = f"{settings.address or settings.title}\n{settings.language}"
    return uuid.uuid5(uuid.NAMESPACE_URL, name)


def _zip(files: dict[str, bytes]) -> bytes:
    """Put files into a zip; the type comes first and unpacked, so that anybody finds it."""
    target = BytesIO()
    with zipfile.ZipFile(target, "w") as book:
        for name, content in {"mimetype": _TYPE.encode(), **files}.items():
            entry = zipfile.ZipInfo(name, _FIRST_DAY)
            entry.external_attr = 0o644 << 16
            packed = name.endswith(tuple(_PACKED))
            entry.compress_type = zipfile.ZIP_DEFLATED if packed else zipfile.ZIP_STORED
            book.writestr(entry, content)
    return target.getvalue()
