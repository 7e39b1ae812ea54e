"""What of a course is to be translated, file by file."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from enum import StrEnum

from builder.course.course import Course, Scope
from builder.course.trait import TRAITS
from builder.findings import Place
from builder.reading.pages import Page
from builder.reading.placement_file import PLACEMENT_FILE
from builder.reading.translation.parts import (
    Parts,
    list_course_parts,
    list_lesson_parts,
    list_notice_parts,
    list_page_parts,
    list_placement_parts,
)


class Kind(StrEnum):
    """Kinds of files that are translated."""

    COURSE = "course file"
    PLACEMENT = "placement table"
    LESSON = "lesson"
    NOTICE = "notice"
    PAGE = "page"


@dataclass(frozen=True, slots=True)
class Original:
    """One file that is to be translated."""

    kind: Kind
    id: str
    """The lesson's or notice's id; of other files the name."""
    within: str
    """Its path from the content folder."""
    place: Place
    parts: Parts


def list_originals(course: Course, pages: Iterable[Page], scope: Scope) -> tuple[Original, ...]:
    """Return every file of a scope: the course file first, then lessons in teaching order."""
    return tuple(_list(course, pages, scope))


def _list(course: Course, pages: Iterable[Page], scope: Scope) -> Iterator[Original]:
    settings = course.settings
    content, slash, name = settings.path.rpartition("/")
    own_traits = [trait for trait in course.traits.values() if TRAITS.get(trait.id) != trait]
    words = list_course_parts(settings, course.vocabulary, own_traits)
    yield Original(Kind.COURSE, name, name, settings.at("languages"), words)
    if course.placement:
        table = list_placement_parts(course.placement, scope.strands)
        place = Place(f"{content}{slash}{PLACEMENT_FILE}")
        yield Original(Kind.PLACEMENT, PLACEMENT_FILE, PLACEMENT_FILE, place, table)
    for lesson in course.lessons:
        if lesson.strand.id in scope.strands:
            within = lesson.path.removeprefix(f"{content}{slash}")
            parts = list_lesson_parts(lesson)
            yield Original(Kind.LESSON, lesson.id, within, lesson.at("title"), parts)
    for notice in course.notices:
        within = notice.place.path.removeprefix(f"{content}{slash}")
        parts = list_notice_parts(notice)
        yield Original(Kind.NOTICE, notice.id, within, notice.at("title"), parts)
    for page in pages:
        if scope.pages is None or page.path in scope.pages:
            place = Place(f"{content}{slash}{page.path}")
            yield Original(Kind.PAGE, page.path, page.path, place, list_page_parts(page))
