"""What the head of a page tells others of it: when it changed, and the picture that stands for it.

The theme's template writes it by the Open Graph protocol (ogp.me), which shared pages are read by.
"""

import json

from markupsafe import Markup

from builder.course.audience import Audience
from builder.course.lesson import Lesson
from builder.publishing.pages.links import COURSE_POSTER, Site, poster_file
from builder.publishing.pages.templates import escape_for_host
from builder.publishing.views.lesson_view import LessonView
from builder.sums.version import find_version


def write_head_line(site: Site, lesson: Lesson, view: LessonView) -> Markup:
    """Return the line of a lesson page's header that the theme reads; JSON is YAML too."""
    told = {"changed": find_last_change(site, lesson)}
    if site.papers:
        shown = f"{view.title}: {view.position}, {view.tempo_text}"
        told |= _tell_picture(poster_file(lesson), shown)
    text = json.dumps({key: value for key, value in told.items() if value}, ensure_ascii=False)
    return Markup(f"tempoleaf: {text}")  # noqa: S704  # a header is no HTML


def describe_head(site: Site | None) -> dict[str, str]:
    """Return what pages say that have nothing of their own: language and the course's picture."""
    if site is None:
        return {}
    settings = site.course.settings
    told = {"locale": _write_locale(settings.language)}
    if site.papers and settings.address:
        told |= _tell_picture(COURSE_POSTER, f"{settings.title}. {settings.summary}")
    return told


def _write_locale(tag: str) -> str:
    """Write a BCP 47 tag as Open Graph has it, such as en_GB; script subtags fall away."""
    language, *others = tag.split("-")
    regions = [part.upper() for part in others if len(part) == 2]
    return "_".join((language.lower(), *regions[:1]))


def find_last_change(site: Site, lesson: Lesson) -> str:
    """Return the day since which a lesson says what it says now; empty where no release tells."""
    ledger = site.course.ledger
    releases = ledger.by_card.get((lesson.id, Audience.CLIENT), ()) if ledger else ()
    if not releases or releases[-1].code != find_version(site.course, lesson, Audience.CLIENT):
        return ""
    return releases[-1].on.isoformat()


def _tell_picture(path: str, shown: str) -> dict[str, str]:
    """Return where a picture is, from the site's root, and what it shows."""
    return {"picture": path, "picture_says": escape_for_host(shown)}
