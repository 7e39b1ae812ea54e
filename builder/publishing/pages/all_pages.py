"""Every page and file of the site, ready for whatever host turns Markdown into a site."""

from collections.abc import Iterable, Mapping

from builder import rules
from builder.publishing.pages.assets import make_assets
from builder.publishing.pages.author import add_missing_pages, make_author_page, make_map_page
from builder.publishing.pages.lesson import make_lesson_page
from builder.publishing.pages.links import (
    AUTHORS,
    MAP,
    PRACTICE,
    START,
    Site,
    lesson_page,
    rule_page,
    strand_page,
)
from builder.publishing.pages.my_practice import make_practice_page
from builder.publishing.pages.rule_pages import make_author_guide, make_rule_page
from builder.publishing.pages.start_here import make_start_page
from builder.publishing.pages.strand import make_strand_page
from builder.reading.pages import Page


def make_pages(site: Site, pages: Iterable[Page]) -> Mapping[str, str | bytes]:
    """Return every page of a course as Markdown, and its styles, scripts and fonts, by path."""
    course = site.course
    made: dict[str, str | bytes] = {
        page.path: make_author_page(site, page) for page in add_missing_pages(site, pages)
    }
    made[MAP] = make_map_page(site)
    made[PRACTICE] = make_practice_page(site)
    if course.placement:
        made[START] = make_start_page(site, course.placement)
    for strand in course.vocabulary.strands.values():
        made[strand_page(strand.id)] = make_strand_page(site, strand)
    for lesson in course.lessons:
        made[lesson_page(lesson)] = make_lesson_page(site, lesson)
    for rule in rules.RULES:
        page = make_rule_page(site, rule)
        if page is not None:
            made[rule_page(rule.id)] = page
    made[AUTHORS] = make_author_guide(site, frozenset(made))
    return {**made, **make_assets(course.settings.colours, course.settings.language)}
