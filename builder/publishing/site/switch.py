"""The way from a page to the same page in another language."""

from collections.abc import Mapping
from dataclasses import dataclass

from builder.language import language_of
from builder.publishing.pages.all_pages import list_learners_pages
from builder.publishing.pages.links import HOME, Site
from builder.reading.course_folder import CourseReading


@dataclass(frozen=True, slots=True)
class Other:
    """A page in another language."""

    tag: str
    """BCP 47."""
    name: str
    """The language's own name for itself."""
    href: str
    is_same: bool
    """False where that language lacks the page, and the address is that of its home."""


@dataclass(frozen=True, slots=True)
class Switch:
    """All languages of a course, seen from the site of one of them."""

    site: Site
    folders: Mapping[str, str]
    """Language to the folder of its site, from the folder of this one."""
    pages: Mapping[str, frozenset[str]]
    """Language to the paths of its pages."""

    def list_others(self, page: str) -> tuple[Other, ...]:
        """Return a page in every other language."""
        return tuple(
            Other(
                tag,
                language_of(tag).name,
                self.site.link(page, f"{folder}/{page if page in self.pages[tag] else HOME}"),
                page in self.pages[tag],
            )
            for tag, folder in self.folders.items()
        )


def make_switch(reading: CourseReading, site: Site) -> Switch:
    """Find out which pages there are in the languages that a site isn't in."""
    whole = reading.original or reading
    course = whole.course
    if course is None:
        return Switch(site, {}, {})
    here = site.course.settings.language
    above = "../" if site.is_translation else ""
    folders = {tag: f"{above}{tag}" for tag in course.translations if tag != here}
    pages = {
        tag: list_learners_pages(Site(course.translations[tag]), whole.translated_pages[tag])
        for tag in folders
    }
    if site.is_translation:
        folders = {course.settings.language: "..", **folders}
        pages[course.settings.language] = list_learners_pages(Site(course), whole.pages)
    return Switch(site, folders, pages)
