"""Lessons and course as linked data, in the words of schema.org."""

import json
from collections.abc import Mapping

from markupsafe import Markup

from builder.course.course import Course
from builder.course.dose import Dose
from builder.course.lesson import Lesson
from builder.publishing.views.inline import no_link, strip_tags
from builder.publishing.views.lesson_in_words import lesson_address, view_lesson
from builder.sums.timing import time_drill

JsonLd = dict[str, object]


def describe_course(course: Course) -> JsonLd:
    """Describe the course with its lessons."""
    settings = course.settings
    return _drop_empty(
        {
            "@context": "https://schema.org",
            "@type": "Course",
            "name": settings.title,
            "description": settings.summary,
            "inLanguage": settings.language,
            "url": settings.address,
            "provider": _studio(course),
            "hasPart": [
                _drop_empty(
                    {
                        "@type": "LearningResource",
                        "name": lesson.title,
                        "url": lesson_address(course, lesson),
                    }
                )
                for lesson in course.lessons
            ],
        }
    )


def describe_lesson(course: Course, lesson: Lesson) -> JsonLd:
    """Describe a lesson as something to learn from and as a plan of exercise."""
    view = view_lesson(course, lesson, no_link)
    time = time_drill(lesson.drill, course.settings.limits.set_up_seconds)
    days = lesson.strand.days_a_week
    return _drop_empty(
        {
            "@context": "https://schema.org",
            "@type": ["LearningResource", "ExercisePlan"],
            "name": view.title,
            "description": strip_tags(view.summary),
            "inLanguage": course.settings.language,
            "url": view.address,
            "isPartOf": _drop_empty(
                {
                    "@type": "Course",
                    "name": course.settings.title,
                    "url": course.settings.address,
                }
            ),
            "publisher": _studio(course),
            "learningResourceType": "lesson",
            "educationalLevel": f"{view.strand_title}, level {view.level}",
            "competencyRequired": [before.title for before in view.builds_on],
            "timeRequired": _duration(time.lesson_seconds),
            "exerciseType": view.strand_title,
            "activityDuration": _duration(time.drill_seconds),
            "activityFrequency": f"{days} days a week" if days else "",
            "intensity": lesson.drill.effort.id,
            "additionalVariable": f"tempo {view.tempo_text}",
            **_repeat(lesson),
        }
    )


def write_json_ld(value: Mapping[str, object]) -> Markup:
    """Write linked data as a script block that no text in it can close."""
    text = json.dumps(value, ensure_ascii=False, separators=(",", ":"))
    for sign, code in (("<", "\\u003c"), (">", "\\u003e"), ("&", "\\u0026")):
        text = text.replace(sign, code)
    return Markup(f'<script type="application/ld+json">{text}</script>')  # noqa: S704  # above


def _repeat(lesson: Lesson) -> JsonLd:
    dose = lesson.drill.dose
    if not isinstance(dose, Dose):
        return {}
    rest = f"{dose.rest_seconds} seconds between sets" if dose.rest_seconds else ""
    return {"repetitions": dose.breaths, "restPeriods": rest}


def _studio(course: Course) -> JsonLd:
    return {"@type": "Organization", "name": course.settings.studio.name}


def _duration(seconds: float) -> str:
    """Write a duration as ISO 8601 has it."""
    return f"PT{round(seconds)}S"


def _drop_empty(values: JsonLd) -> JsonLd:
    return {key: value for key, value in values.items() if value not in ("", [], None)}
