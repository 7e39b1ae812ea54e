"""Pages that the studio wrote, and the ones a course gets when it wrote none."""

import re
from collections.abc import Iterable, Mapping
from re import Match

from builder.course.graph import find_circles
from builder.language import Language, mark
from builder.publishing.pages.blocks import BLOCKS
from builder.publishing.pages.json_ld import describe_course, write_json_ld
from builder.publishing.pages.lesson_names import link_lesson_names
from builder.publishing.pages.links import (
    AUTHORS,
    BOOK,
    COACHES,
    COURSE_PACK,
    HOME,
    MAP,
    PROOF,
    PROPS,
    SAFETY,
    SOURCES,
    Site,
    relative_source,
    wall_chart_file,
)
from builder.publishing.pages.templates import (
    escape_markdown,
    render_block,
    render_page,
    write_header,
)
from builder.reading.pages import Page
from builder.sums.paper import WALL_SHEETS_MM

_MAP_ABOUT = mark("Every lesson of the course and what it builds on.")
_POINT_TO_PROOF = (SAFETY, COACHES)
_WIDE = "hide: [toc]"
_BLOCK = re.compile(r"^\{([a-z-]+)\}[ \t]*$", re.MULTILINE)
_NEEDED = {
    SAFETY: ((mark("All cautions"), "notice-list"),),
    PROPS: ((mark("All props"), "prop-table"),),
    COACHES: (
        (mark("What each lesson asks"), "demand-chart"),
        (mark("How big a breath each tempo needs"), "air-chart"),
    ),
    SOURCES: ((mark("All sums"), "source-list"),),
}
"""Pages that other pages link into, with the headings and the blocks they can't do without."""
PLAIN_TITLES = {
    SAFETY: mark("Safety"),
    PROPS: mark("Props"),
    COACHES: mark("For coaches"),
    SOURCES: mark("Sources of the sums"),
}
"""Titles of the pages that every site has, where the studio wrote none."""
_ABOUT = {
    SAFETY: mark("Every caution of the course, with its source and its review date."),
    PROPS: mark("What each lesson needs, and what to use at home."),
    COACHES: mark("What each lesson asks, and how the course is checked."),
    SOURCES: mark("Every sum behind the numbers of this site, with where it comes from."),
}


def add_missing_pages(site: Site, pages: Iterable[Page]) -> tuple[Page, ...]:
    """Return the studio's pages with a plain one for each that the site can't do without."""
    written = {page.path: page for page in pages}
    settings = site.course.settings
    home = f"# {escape_markdown(settings.title)}\n\n{escape_markdown(settings.summary)}\n\n"
    own = [Page(HOME, settings.title, settings.summary, f"{home}{{strand-list}}\n", 1)]
    for path, plain in list_needed(site).items():
        title, about = site.language.say(plain), site.language.say(_ABOUT[path])
        own.append(Page(path, title, about, f"# {title}\n\n{about}\n", 1))
    return (*written.values(), *(page for page in own if page.path not in written))


def list_needed(site: Site) -> Mapping[str, str]:
    """Return the pages that a site can't do without; a translation needs none for coaches."""
    left_out = (COACHES, SOURCES) if site.is_translation else ()
    return {path: title for path, title in PLAIN_TITLES.items() if path not in left_out}


def make_author_page(site: Site, page: Page) -> str:
    """Write a studio's page: names of lessons as links, blocks filled, the caution at its end."""
    text = link_lesson_names(_add_needed_blocks(site.language, page), site, page.path)

    def fill(match: Match[str]) -> str:
        block = BLOCKS.get(match[1])
        return match[0] if block is None else block(site, page.path)

    parts = [write_header(page.title, page.description), _BLOCK.sub(fill, text).strip()]
    if page.path == COACHES and not site.is_translation:
        target = relative_source(page.path, AUTHORS)
        heading = site.language.say("Writing lessons")
        told = site.language.say(
            "The [author guide]({address}) tells what is checked.", address=target
        )
        parts.append(f"## {heading}\n\n{told}")
    if site.has_proof and page.path in _POINT_TO_PROOF:
        address = site.link(page.path, PROOF)
        parts.append(render_block("proof-link.html", site.language, address=address))
    parts.append(render_block("end.html", site.language, caution=site.course.settings.caution))
    if page.path == HOME:
        parts.append(write_json_ld(describe_course(site.course)))
    return "\n\n".join(parts) + "\n"


def make_map_page(site: Site) -> str:
    """Write the page of the course map, drawn and as a list."""
    page = render_page(
        "map.md",
        site.language,
        header=write_header(site.language.say("Course map"), site.language.say(_MAP_ABOUT), _WIDE),
        map=BLOCKS["course-map"](site, MAP),
        list=BLOCKS["map-list"](site, MAP),
        pack=site.link(MAP, COURSE_PACK) if site.papers else "",
        book=site.link(MAP, BOOK) if site.papers else "",
        charts=_list_wall_charts(site),
    )
    caution = site.course.settings.caution
    return f"{page}\n{render_block('end.html', site.language, caution=caution)}\n"


def _list_wall_charts(site: Site) -> tuple[tuple[str, str], ...]:
    """Return title and address of each wall chart that the site has."""
    if not site.papers or find_circles(site.course.graph):
        return ()
    sheets = WALL_SHEETS_MM
    return tuple((sheet.upper(), site.link(MAP, wall_chart_file(sheet))) for sheet in sheets)


def _add_needed_blocks(language: Language, page: Page) -> str:
    text = page.markdown
    for heading, block in _NEEDED.get(page.path, ()):
        if f"{{{block}}}" not in text:
            text = f"{text.rstrip()}\n\n## {language.say(heading)}\n\n{{{block}}}\n"
    return text
