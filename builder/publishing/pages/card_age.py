"""What a lesson's page knows of its printed cards: which version is current, and what changed."""

from collections.abc import Mapping

from markupsafe import Markup

from builder.course.audience import Audience
from builder.course.course import Course
from builder.course.lesson import Lesson
from builder.publishing.pages.templates import write_json


def list_versions(course: Course, lesson: Lesson, now: Mapping[Audience, str]) -> Markup:
    """Return the code that each card has now and all its releases, as JSON for a script."""
    released = course.ledger.by_card if course.ledger else {}
    versions = [
        {
            "now": now[audience],
            "releases": [
                {"code": release.code, "on": release.on.isoformat(), "why": release.why}
                for release in released.get((lesson.id, audience), ())
            ],
        }
        for audience in Audience
    ]
    return write_json(versions)
