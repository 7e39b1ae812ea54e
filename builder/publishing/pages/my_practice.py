"""My practice: what a person kept on the device, shown by a script and by nobody else."""

import json

from markupsafe import Markup

from builder.publishing.pages.links import PRACTICE, Site, lesson_page
from builder.publishing.pages.templates import render_block, render_page, write_header

_ABOUT = (
    "What you practised, what may come next, and your own notes. All of it stays on your device."
)


def make_practice_page(site: Site) -> str:
    """Write the page; without a script it says what it would show."""
    page = render_page(
        "my-practice.md",
        header=write_header("My practice", _ABOUT, "search: {exclude: true}"),
        lessons=_list_lessons(site),
    )
    return f"{page}\n{render_block('end.html', caution=site.course.settings.caution)}\n"


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
    text = json.dumps(lessons, ensure_ascii=False, separators=(",", ":"))
    # A browser ends a script at the first "</", whatever the script says.
    return Markup(text.replace("<", "\\u003c"))  # noqa: S704  # JSON in a script
