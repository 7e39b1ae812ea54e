"""Every page and file of the site, ready for whatever host turns Markdown into a site."""

from collections.abc import Iterable, Mapping

from builder import rules
from builder.publishing.cards.run import Shelf
from builder.publishing.pages.assets import make_assets
from builder.publishing.pages.author import (
    add_missing_pages,
    list_needed,
    make_author_page,
    make_map_page,
)
from builder.publishing.pages.lesson_pages import make_lesson_pages
from builder.publishing.pages.links import (
    AUTHORS,
    HOME,
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


def make_pages(
    site: Site, pages: Iterable[Page], shelf: Shelf | None = None
) -> Mapping[str, str | bytes]:
    """Return every page of a course as Markdown, and its styles, scripts and fonts, by path.

    On the ``shelf`` lie the pages of lessons that were made before.
    """
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
    made |= make_lesson_pages(site, shelf)
    if not site.is_translation:
        made |= _make_guide(site)
    settings = course.settings
    return {**made, **make_assets(settings.colours, settings.language, site.whole)}


def list_learners_pages(site: Site, pages: Iterable[Page]) -> frozenset[str]:
    """Return the paths of all pages but those for authors, without making them."""
    course = site.course
    return frozenset(
        (
            *(HOME, MAP, PRACTICE, *list_needed(site), *([START] if course.placement else ())),
            *(page.path for page in pages),
            *(strand_page(name) for name in course.vocabulary.strands),
            *(lesson_page(lesson) for lesson in course.lessons),
        )
    )


def _make_guide(site: Site) -> dict[str, str]:
    """Return the guide for authors with a page for each rule that has one."""
    made = {rule_page(rule.id): make_rule_page(site, rule) for rule in rules.RULES}
    written = {path: page for path, page in made.items() if page is not None}
    return {**written, AUTHORS: make_author_guide(site, frozenset(written))}
