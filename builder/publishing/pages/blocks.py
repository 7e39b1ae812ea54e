"""Blocks that an author's page asks for by name, such as ``{course-map}``."""

from collections.abc import Callable, Mapping
from functools import partial

from markupsafe import Markup

from builder.course.graph import find_circles
from builder.course.notice import Action, Notice
from builder.drawing.air_chart import draw_air_chart
from builder.drawing.course_map import draw_course_map
from builder.drawing.demand_chart import draw_demand_chart
from builder.publishing.pages.lesson_names import link_lesson_names, name_lessons
from builder.publishing.pages.links import COACH_CHARTS, MAP, Site, chart_file, lesson_page
from builder.publishing.pages.strand import list_map, list_strands
from builder.publishing.pages.svg_markup import place_svg
from builder.publishing.pages.templates import render_block, render_page
from builder.publishing.views.inline import InlineRenderer
from builder.publishing.views.lesson_in_words import view_notice
from builder.publishing.views.wording import word_review, word_source
from builder.sums.formulas import FORMULAS

Block = Callable[[Site, str], str]
"""A site and the path of a page to Markdown for that page."""


def write_course_map(site: Site, page: str) -> str:
    """Write the drawn map in a frame that slides sideways."""
    course = site.course
    if find_circles(course.graph):
        return site.language.say(
            "The map can't be drawn while lessons build on each other in a circle."
        )

    def link(lesson_id: str) -> str:
        return site.link(page, lesson_page(course.by_id[lesson_id]))

    svg = draw_course_map(course, href=link)
    map_href = "" if page == MAP else site.link(page, MAP)
    return render_block("course-map.html", site.language, map=place_svg(svg), map_href=map_href)


def write_demand_chart(site: Site, page: str) -> str:
    """Write the chart of what each lesson asks, for coaches."""
    chart = place_svg(draw_demand_chart(site.course))
    return _frame_chart(site, page, "demand", site.language.say("Demand chart"), chart)


def write_air_chart(site: Site, page: str) -> str:
    """Write the chart of how big a breath each tempo needs, for coaches."""
    chart = place_svg(draw_air_chart(site.course))
    return _frame_chart(site, page, "air", site.language.say("Air chart"), chart)


def write_source_list(site: Site, _page: str) -> str:
    """Write every sum of the tool with its sources, those of our own marked as such."""
    return render_block("source-list.html", site.language, formulas=FORMULAS)


def write_prop_table(site: Site, page: str) -> str:
    """Write every prop with its stand-in and the lessons that use it."""
    users: dict[str, list[str]] = {}
    for lesson in site.course.lessons:
        for use in lesson.drill.props:
            users.setdefault(use.prop.id, []).append(lesson.id)
    props = [
        {
            "id": prop.id,
            "title": prop.title,
            "stand_in": prop.stand_in,
            "lessons": name_lessons(site, page, users.get(prop.id, [])),
        }
        for prop in site.course.vocabulary.props.values()
    ]
    return render_block("prop-table.html", site.language, props=props)


def write_notice_list(site: Site, page: str) -> str:
    """Write every notice in full, strongest first."""
    actions = list(Action)
    notices = sorted(site.course.notices, key=lambda n: (actions.index(n.action), n.title))
    carriers: dict[str, list[str]] = {notice.id: [] for notice in notices}
    for lesson in site.course.lessons:
        for notice in site.course.notices_for(lesson):
            carriers[notice.id].append(lesson.id)
    return "\n".join(_write_notice(site, page, notice, carriers[notice.id]) for notice in notices)


BLOCKS: Mapping[str, Block] = {
    "course-map": write_course_map,
    "map-list": list_map,
    "strand-list": list_strands,
    "prop-table": write_prop_table,
    "notice-list": write_notice_list,
    "demand-chart": write_demand_chart,
    "air-chart": write_air_chart,
    "source-list": write_source_list,
}
"""Every block by the name that authors write in braces."""


def _frame_chart(site: Site, page: str, name: str, label: str, chart: Markup) -> str:
    """Put a chart into a frame that slides sideways, with its print below."""
    sheets = COACH_CHARTS[name] if site.papers and not site.is_translation else ()
    prints = [(sheet.upper(), site.link(page, chart_file(name, sheet))) for sheet in sheets]
    return render_block(
        "chart.html", site.language, label=label, name=name, chart=chart, prints=prints
    )


def _write_notice(site: Site, page: str, notice: Notice, carriers: list[str]) -> str:
    course = site.course
    inline = InlineRenderer(course.titles, partial(site.link_lesson, page))
    conditions = course.vocabulary.conditions
    titles = [conditions[name].title for name in notice.conditions if name in conditions]
    language = site.language
    return render_page(
        "notice.md",
        language,
        notice=view_notice(language, inline, notice),
        long=Markup(link_lesson_names(notice.long, site, page)),  # noqa: S704  # author's Markdown
        whom=language.all_of(titles) or language.say("everybody"),
        everywhere=notice.everywhere,
        lessons=name_lessons(site, page, carriers),
        # Titles of publications stay in the words of their publishers.
        sources_language=course.settings.translated_from,
        sources=[word_source(language, source) for source in notice.sources],
        reviewed=word_review(language, notice.reviewed),
    )
