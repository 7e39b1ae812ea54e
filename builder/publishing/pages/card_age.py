"""What a lesson's page knows of its printed cards: which version is current, and what changed."""

from markupsafe import Markup

from builder.course.audience import Audience
from builder.course.course import Course
from builder.course.lesson import Lesson
from builder.publishing.pages.templates import write_json
from builder.sums.version import find_version


def list_versions(course: Course, lesson: Lesson) -> Markup:
    """Return the current code of each card and all its releases, as JSON for the page's script."""
    released = course.ledger.by_card if course.ledger else {}
    versions = [
        {
            "now": find_version(course, lesson, audience),
            "releases": [
                {"code": release.code, "on": release.on.isoformat(), "why": release.why}
                for release in released.get((lesson.id, audience), ())
            ],
        }
        for audience in Audience
    ]
    return write_json(versions)
