"""What the head of a lesson's page tells others of it, as a line of the page's header."""

import json

from markupsafe import Markup

from builder.course.audience import Audience
from builder.course.lesson import Lesson
from builder.publishing.pages.links import Site
from builder.sums.version import find_version


def write_head_line(site: Site, lesson: Lesson) -> Markup:
    """Return the line that the theme's templates read; JSON is YAML too."""
    told = {"changed": find_last_change(site, lesson)}
    text = json.dumps({key: value for key, value in told.items() if value}, ensure_ascii=False)
    return Markup(f"tempoleaf: {text}")  # noqa: S704  # no HTML here


def find_last_change(site: Site, lesson: Lesson) -> str:
    """Return the day since which a lesson says what it says now; empty where no release tells."""
    ledger = site.course.ledger
    releases = ledger.by_card.get((lesson.id, Audience.CLIENT), ()) if ledger else ()
    if not releases or releases[-1].code != find_version(site.course, lesson, Audience.CLIENT):
        return ""
    return releases[-1].on.isoformat()
