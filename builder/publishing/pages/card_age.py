"""What a lesson's page knows of its printed cards: which version is current, and what changed."""

import json

from markupsafe import Markup

from builder.course.audience import Audience
from builder.course.course import Course
from builder.course.lesson import Lesson
from builder.sums.version import find_version


def list_versions(course: Course, lesson: Lesson) -> Markup:
    """Return the current code of each card and all its releases, as JSON for the page's script."""
    versions = [
        {
            "now": find_version(course, lesson, audience),
            "releases": [
                {"code": release.code, "on": release.on.isoformat(), "why": release.why}
                for release in (course.ledger.of(lesson.id, audience) if course.ledger else ())
            ],
        }
        for audience in Audience
    ]
    text = json.dumps(versions, ensure_ascii=False, separators=(",", ":"))
    # A browser ends a script at the first "</", whatever the script says.
    return Markup(text.replace("<", "\\u003c"))  # noqa: S704  # JSON in a script
