"""The page of one strand, and strands as a list."""

from collections.abc import Iterable
from functools import partial

from builder.course.lesson import Lesson
from builder.course.vocabulary import Strand
from builder.publishing.pages.lesson_names import name_lessons
from builder.publishing.pages.links import PROPS, Site, lesson_page, pack_file, strand_page
from builder.publishing.pages.templates import render_block, render_page, write_header
from builder.publishing.pages.terms import explain_terms
from builder.publishing.views.inline import InlineRenderer
from builder.publishing.views.wording import word_figures, word_position, word_time
from builder.sums.timing import time_drill


def make_strand_page(site: Site, strand: Strand) -> str:
    """Write a strand's page: its lessons, how long they take and what they ask for."""
    page = strand_page(strand.id)
    lessons = site.course.lessons_of(strand.id)
    text = render_page(
        "strand.md",
        site.language,
        strand=strand,
        header=write_header(strand.title, strand.summary),
        lessons=list_lessons(site, page, lessons),
        props=_list_props(site, page, lessons),
        pack=site.link(page, pack_file(strand.id)) if site.papers and lessons else "",
        caution=site.course.settings.caution,
    )
    return explain_terms(text, site, page)


def list_lessons(site: Site, page: str, lessons: Iterable[Lesson]) -> str:
    """Write lessons as a list with what each asks for."""
    inline = InlineRenderer(site.course.titles, partial(site.link_lesson, page))
    views = [_view_lesson(site, page, lesson, inline) for lesson in lessons]
    return render_block("lessons.html", site.language, lessons=views)


def list_strands(site: Site, page: str) -> str:
    """Write the strands as a list in teaching order."""
    course = site.course
    strands = [
        {
            "title": strand.title,
            "summary": strand.summary,
            "href": site.link(page, strand_page(strand.id)),
            "count": len(course.lessons_of(strand.id)),
            "minutes": strand.minutes,
        }
        for strand in course.vocabulary.strands.values()
    ]
    return render_block("strand-list.html", site.language, strands=strands)


def list_map(site: Site, page: str) -> str:
    """Write the course map as a nested list."""
    course = site.course
    strands = [
        {
            "title": strand.title,
            "href": site.link(page, strand_page(strand.id)),
            "lessons": [_view_stop(site, page, lesson) for lesson in course.lessons_of(strand.id)],
        }
        for strand in course.vocabulary.strands.values()
    ]
    return render_block("map-list.html", site.language, strands=strands)


def _view_stop(site: Site, page: str, lesson: Lesson) -> dict[str, object]:
    """Return what a lesson has in every list: its name, its level and what it builds on."""
    course = site.course
    before = course.graph[lesson.id]
    return {
        "id": lesson.id,
        "title": lesson.title,
        "level": lesson.level,
        "href": site.link(page, lesson_page(lesson)),
        "boxes": len(lesson.words.ready_when),
        "was": " ".join(lesson.was),
        "before": " ".join(f"{name}:{len(course.by_id[name].words.ready_when)}" for name in before),
        "builds_on": name_lessons(site, page, before),
    }


def _view_lesson(
    site: Site, page: str, lesson: Lesson, inline: InlineRenderer
) -> dict[str, object]:
    """Return what a strand's page says of a lesson."""
    course, language = site.course, site.language
    traits = sorted(course.traits_by_lesson[lesson.id])
    asks = [language.say(course.traits[trait].title) for trait in traits if trait in course.traits]
    time = time_drill(lesson.drill, course.settings.limits.set_up_seconds)
    return _view_stop(site, page, lesson) | {
        "summary": inline.render(lesson.summary),
        "position": word_position(lesson.drill.position),
        "tempo": word_figures(language, lesson.drill.tempo),
        "time": word_time(language, time),
        "asks": language.all_of(asks),
    }


def _list_props(site: Site, page: str, lessons: Iterable[Lesson]) -> list[dict[str, str]]:
    props = {use.prop.id: use.prop for lesson in lessons for use in lesson.drill.props}
    return [
        {
            "title": prop.title,
            "stand_in": prop.stand_in,
            "href": site.link(page, PROPS, f"prop-{prop.id}"),
        }
        for prop in props.values()
    ]
