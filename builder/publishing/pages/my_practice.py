"""My practice: what a person kept on the device, shown by a script and by nobody else."""

from markupsafe import Markup

from builder.language import mark
from builder.publishing.pages.links import PRACTICE, Site, lesson_page
from builder.publishing.pages.templates import render_block, render_page, write_header, write_json

_ABOUT = mark(
    "What you practised, what may come next, and your own notes. All of it stays on your device."
)


def make_practice_page(site: Site) -> str:
    """Write the page; without a script it says what it would show."""
    page = render_page(
        "my-practice.md",
        site.language,
        header=write_header(
            site.language.say("My practice"), site.language.say(_ABOUT), "search: {exclude: true}"
        ),
        lessons=_list_lessons(site),
    )
    caution = site.course.settings.caution
    return f"{page}\n{render_block('end.html', site.language, caution=caution)}\n"


def _list_lessons(site: Site) -> Markup:
    """Return what the script needs to know of each lesson, in the order of the course."""
    lessons = [
        {
            "id": lesson.id,
            "title": lesson.title,
            "href": site.link(PRACTICE, lesson_page(lesson)),
            "before": list(site.course.graph[lesson.id]),
            "boxes": len(lesson.words.ready_when),
            "was": list(lesson.was),
        }
        for lesson in site.course.lessons
    ]
    return write_json(lessons)
