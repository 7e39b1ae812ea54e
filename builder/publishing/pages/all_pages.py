"""Every page and file of the site, ready for whatever host turns Markdown into a site."""

from collections.abc import Iterable, Iterator, Mapping
from functools import partial

from builder import rules
from builder.publishing.cards.run import Shelf
from builder.publishing.fetching import Wanted, fetch_all
from builder.publishing.pages.assets import make_assets
from builder.publishing.pages.author import (
    add_missing_pages,
    list_needed,
    make_author_page,
    make_map_page,
)
from builder.publishing.pages.excerpt import Excerpts
from builder.publishing.pages.lesson_pages import make_lesson_pages
from builder.publishing.pages.licences import make_licences_page
from builder.publishing.pages.links import (
    AUTHORS,
    HOME,
    LICENCES,
    MAP,
    PRACTICE,
    START,
    Site,
    lesson_page,
    rule_page,
    strand_page,
)
from builder.publishing.pages.my_practice import make_practice_page
from builder.publishing.pages.outline import outline_site
from builder.publishing.pages.rule_pages import make_author_guide, make_rule_page
from builder.publishing.pages.start_here import make_start_page
from builder.publishing.pages.strand import make_strand_page
from builder.reading.pages import Page


def make_pages(
    site: Site,
    pages: Iterable[Page],
    shelf: Shelf | None = None,
    excerpts: Excerpts | None = None,
) -> Mapping[str, str | bytes]:
    """Return every page of a course as Markdown, and its styles, scripts and fonts, by path.

    On the ``shelf`` lie the pages of lessons that were made before. Whoever needs the site's
    ``excerpts`` again brings them along.
    """
    outlined = dict(_list_outlined(site, pages))
    texts = fetch_all(shelf, tuple(outlined.values()))
    made: dict[str, str | bytes] = dict(zip(outlined, texts, strict=True))
    made |= make_lesson_pages(site, excerpts or Excerpts(site), shelf)
    if not site.is_translation:
        made |= _make_guide(site)
    settings = site.course.settings
    return {**made, **make_assets(settings.colours, settings.language, site.whole)}


def _list_outlined(site: Site, pages: Iterable[Page]) -> Iterator[tuple[str, Wanted]]:
    """Yield every page but those of lessons and for authors, by its path."""
    outline = outline_site(site)
    bare, course = outline.site, outline.site.course
    for page in add_missing_pages(site, pages):
        make = partial(make_author_page, bare, page)
        yield page.path, Wanted(partial(outline.key_page, page), make)
    yield MAP, Wanted(partial(outline.key_page, MAP), partial(make_map_page, bare))
    yield (
        PRACTICE,
        Wanted(partial(outline.key_page, PRACTICE), partial(make_practice_page, bare)),
    )
    if course.placement:
        make = partial(make_start_page, bare, course.placement)
        yield START, Wanted(partial(outline.key_page, START), make)
    for strand in course.vocabulary.strands.values():
        make = partial(make_strand_page, outline.summed_up, strand)
        yield strand_page(strand.id), Wanted(partial(outline.key_strand, strand.id), make)


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
    guide = make_author_guide(site, frozenset(written))
    return {**written, AUTHORS: guide, LICENCES: make_licences_page(site)}
