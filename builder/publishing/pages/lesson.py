"""The page of one lesson."""

from functools import partial

from builder.course.audience import Audience
from builder.course.lesson import Lesson
from builder.course.tempo import format_seconds
from builder.drawing.labels import labels_in
from builder.drawing.tempo_strip import draw_tempo_strip
from builder.publishing.pages.asides import lay_aside, put_back
from builder.publishing.pages.card_age import list_versions
from builder.publishing.pages.drawn_figure import DrawnFigure
from builder.publishing.pages.excerpt import Excerpt
from builder.publishing.pages.head import write_head_line
from builder.publishing.pages.json_ld import describe_lesson, write_json_ld
from builder.publishing.pages.links import (
    PRACTICE,
    PROPS,
    SAFETY,
    Site,
    card_file,
    lesson_page,
    strand_page,
    track_file,
)
from builder.publishing.pages.pacer import make_pacer
from builder.publishing.pages.svg_markup import place_svg
from builder.publishing.pages.templates import render_page, write_header
from builder.publishing.pages.terms import explain_terms
from builder.publishing.tracks import SAMPLES_PER_SECOND, count_samples, has_track, name_track
from builder.publishing.views.inline import strip_tags
from builder.publishing.views.lesson_in_words import view_lesson
from builder.publishing.views.ways import list_ways
from builder.publishing.views.wording import word_minutes
from builder.sums.version import find_versions

_BYTES_PER_SAMPLE = 2
_OWN_PACE = (4.0, 0.0, 4.0, 1.0)
"""Seconds at which a figure moves where people breathe at their own pace; ours."""


def make_lesson_page(excerpt: Excerpt, figure: DrawnFigure | None) -> str:
    """Write a lesson's page: everything a client needs, and nothing from the coach notes.

    ``figure`` is the lesson's own, drawn; None where it has none.
    """
    site, lesson = excerpt.make_site(), excerpt.lesson
    page = lesson_page(lesson)
    view = view_lesson(site.course, lesson, partial(site.link_lesson, page))
    labels = labels_in(site.course.settings.language)
    versions = find_versions(site.course, lesson)
    head = write_head_line(site, lesson, view)
    text = render_page(
        "lesson.md",
        site.language,
        view=view,
        header=write_header(view.title, strip_tags(view.summary), head),
        strand_href=site.link(page, strand_page(view.strand_id)),
        props_href=site.link(page, PROPS),
        safety_href=site.link(page, SAFETY),
        pacer=make_pacer(site.course, lesson, view, labels),
        next_ways=view.harder or view.builds_into,
        strip=place_svg(draw_tempo_strip(lesson.drill.tempo, labels=labels)),
        figure=figure,
        phases=_phases(lesson),
        was=" ".join(lesson.was),
        practice_href=site.link(page, PRACTICE),
        ways=list_ways(site.language, view),
        cards=list_cards(site, page, lesson.id),
        track=_find_track(site, page, lesson),
        version=versions[Audience.CLIENT],
        versions=list_versions(site.course, lesson, versions),
        json_ld=write_json_ld(
            describe_lesson(site.course, lesson, view, versions[Audience.CLIENT])
        ),
    )
    words, drawings = lay_aside(text)
    return put_back(explain_terms(words, site, page), drawings)


def _find_track(site: Site, page: str, lesson: Lesson) -> dict[str, str] | None:
    """Return addresses, length and size of a lesson's practice track, where the site has one."""
    drill = lesson.drill
    if not site.papers or not has_track(drill):
        return None
    samples = count_samples(drill)
    return {
        "href": site.link(page, track_file(site, name_track(drill), "wav")),
        "small_href": site.link(page, track_file(site, name_track(drill), "flac")),
        "minutes": word_minutes(site.language, samples / SAMPLES_PER_SECOND),
        "megabytes": site.language.number(round(samples * _BYTES_PER_SAMPLE / 1_000_000, 1)),
    }


def _phases(lesson: Lesson) -> str:
    """Return the seconds of in, hold, out and hold; a calm pace where nobody counts."""
    tempo = lesson.drill.tempo
    return " ".join(format_seconds(s) for s in (tempo.phases if tempo else _OWN_PACE))


def list_cards(site: Site, page: str, lesson_id: str) -> tuple[dict[str, str], ...]:
    """Return the address and the title of a lesson's card on each paper, the course's own first."""
    own = site.course.settings.paper
    papers = sorted(site.papers, key=lambda paper: paper[0] != own)
    return tuple(
        {
            "href": site.link(page, card_file(lesson_id, "" if name == own else name)),
            "title": title,
        }
        for name, title in papers
    )
