"""The outline of a course: what pages that list its lessons are made from.

It has each lesson's name, place, drill and ways, and none of the words that only its own page
says. Pages are written from the outline, so a change to such words changes none of them.
"""

from dataclasses import dataclass, replace
from datetime import date
from functools import cached_property

from builder.course.course import Course
from builder.course.lesson import Lesson, Words
from builder.publishing.pages.excerpt import strip_notice, strip_settings
from builder.publishing.pages.links import Site
from builder.work.digest import digest, spell
from builder.work.tool import digest_tool


@dataclass(frozen=True)
class Outline:
    """The outline of a site, twice: pages of strands show summaries besides."""

    site: Site
    summed_up: Site

    @cached_property
    def key(self) -> str:
        """Return a digest of everything in the outline but summaries."""
        course = self.site.course
        shared = (
            *(self.site.papers, self.site.directory_urls, self.site.has_proof),
            *(course.settings, course.vocabulary),
            *(course.traits, course.reference_bodies, course.glossary, course.placement),
            tuple(course.translations),
        )
        lessons = map(spell, course.lessons)
        notices = map(spell, course.notices)
        parts = digest(*lessons), digest(*notices), *map(spell, shared)
        return digest("outline", digest_tool(), *parts)

    def key_page(self, page: object) -> str:
        """Return the key of a page that is made from the outline, by what else it is made from."""
        return digest("outlined page", self.key, spell(page))

    def key_strand(self, strand_id: str) -> str:
        """Return the key of a strand's page."""
        lessons = self.summed_up.course.lessons_of(strand_id)
        summaries = (lesson.summary for lesson in lessons)
        return digest("strand", self.key, strand_id, *summaries)


def outline_site(site: Site) -> Outline:
    """Return the outline of a site."""
    course = site.course
    summed_up = tuple(_outline(lesson) for lesson in course.lessons)
    bare = tuple(replace(lesson, summary="") for lesson in summed_up)
    return Outline(
        replace(site, course=_narrow(course, bare)),
        replace(site, course=_narrow(course, summed_up)),
    )


def _narrow(course: Course, lessons: tuple[Lesson, ...]) -> Course:
    """Return a course of outlined lessons, without what no such page shows."""
    empty = replace(course, lessons=(), notices=(), glossary={}, ledger=None, translations={})
    return replace(
        course,
        settings=strip_settings(course.settings),
        lessons=lessons,
        notices=tuple(strip_notice(notice) for notice in course.notices),
        unreadable=frozenset(),
        unreadable_notices=frozenset(),
        ledger=None,
        translations=dict.fromkeys(course.translations, empty),
        day=date.min,
    )


def _outline(lesson: Lesson) -> Lesson:
    signs = ("",) * len(lesson.words.ready_when)
    return replace(
        lesson,
        words=Words((), (), (), (), None, (), signs, ()),
        measures=(),
        ladder=(),
        allowed={},
        reviewed=None,
        figure=None,
        path="",
        positions={},
    )
