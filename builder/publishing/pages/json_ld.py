"""Lessons and course as linked data, in the words of schema.org."""

import json
from collections.abc import Iterator, Mapping

from markupsafe import Markup

from builder.course.course import Course
from builder.course.dose import Dose
from builder.course.lesson import Lesson
from builder.course.vocabulary import Effort, Strand
from builder.language import language_of
from builder.publishing.views.inline import strip_tags
from builder.publishing.views.lesson_in_words import lesson_address
from builder.publishing.views.lesson_view import LessonView
from builder.sums.timing import DrillTime, time_drill

JsonLd = dict[str, object]
_CONTEXT = "https://schema.org"
_LESSON = ["LearningResource", "ExercisePlan"]


def describe_course(course: Course) -> JsonLd:
    """Describe the course: its strands as sections, and its lessons in teaching order."""
    settings = course.settings
    return _drop_empty(
        {
            "@context": _CONTEXT,
            "@type": "Course",
            "name": settings.title,
            "description": f"{settings.summary} {settings.caution}",
            "inLanguage": settings.language,
            "availableLanguage": [settings.language, *course.translations],
            "url": settings.address,
            "provider": _studio(course),
            "syllabusSections": [
                _describe_strand(course, strand)
                for strand in course.vocabulary.strands.values()
                if course.lessons_of(strand.id)
            ],
            "hasPart": [
                _drop_empty(
                    {
                        "@type": _LESSON,
                        "name": course.by_id[name].title,
                        "position": place,
                        "url": lesson_address(course, course.by_id[name]),
                    }
                )
                for place, name in enumerate(course.teaching_order, 1)
            ],
        }
    )


def describe_lesson(course: Course, lesson: Lesson, view: LessonView, version: str) -> JsonLd:
    """Describe a lesson as something to learn from and as a plan of exercise.

    A plan may be shown where its page isn't: the caution, every notice and every stop sign go
    along with the dose. ``view`` is the lesson in words, with links or without;
    ``version`` is the code of the client's card.
    """
    say = language_of(course.settings.language).say
    time = time_drill(lesson.drill, course.settings.limits.set_up_seconds)
    return _drop_empty(
        {
            "@context": _CONTEXT,
            "@type": _LESSON,
            "name": view.title,
            "description": f"{strip_tags(view.summary)} {view.caution}",
            "inLanguage": course.settings.language,
            "url": view.address,
            "version": version,
            "isPartOf": _drop_empty(
                {
                    "@type": "Course",
                    "name": course.settings.title,
                    "url": course.settings.address,
                }
            ),
            "publisher": _studio(course),
            "learningResourceType": "lesson",
            "educationalLevel": f"{view.strand_title}, {say('level {level}', level=view.level)}",
            "competencyRequired": [before.title for before in view.builds_on],
            "teaches": [strip_tags(sign) for sign in view.ready_when],
            "timeRequired": _duration(time.lesson_seconds),
            **_describe_exercise(course, lesson, view, time),
        }
    )


def write_json_ld(value: Mapping[str, object]) -> Markup:
    """Write linked data as a script block that no text in it can close."""
    text = json.dumps(value, ensure_ascii=False, separators=(",", ":"))
    for sign, code in (("<", "\\u003c"), (">", "\\u003e"), ("&", "\\u0026")):
        text = text.replace(sign, code)
    return Markup(f'<script type="application/ld+json">{text}</script>')  # noqa: S704  # above


def _describe_strand(course: Course, strand: Strand) -> JsonLd:
    site = course.settings.address.rstrip("/")
    return _drop_empty(
        {
            "@type": "Syllabus",
            "name": strand.title,
            "description": strand.summary,
            "url": site and f"{site}/lessons/{strand.id}/",
        }
    )


def _describe_exercise(course: Course, lesson: Lesson, view: LessonView, time: DrillTime) -> JsonLd:
    language = language_of(course.settings.language)
    days = lesson.strand.days_a_week
    often = language.say_many("{count} day a week", "{count} days a week", days) if days else ""
    own_pace = lesson.drill.tempo is None and isinstance(lesson.drill.dose, Dose)
    return {
        "exerciseType": view.strand_title,
        # Nobody knows how long breaths at one's own pace will take.
        "activityDuration": "" if own_pace else _duration(time.drill_seconds),
        "activityFrequency": often,
        "intensity": lesson.drill.effort.id,
        "workload": _weigh(lesson.drill.effort),
        "additionalVariable": list(_list_variables(course, view)),
        **_repeat(course, lesson),
    }


def _list_variables(course: Course, view: LessonView) -> Iterator[str]:
    """Yield what else belongs to the plan, its cautions above all."""
    language = language_of(course.settings.language)
    say = language.say
    yield f"{say('Position')}: {view.position}"
    yield f"{say('Tempo')}: {view.tempo_text}"
    yield f"{language.say_as('dose', 'Do')}: {view.dose}"
    for sign in view.stop_if:
        yield f"{say('Stop if')}: {strip_tags(sign)}"
    for notice in view.notices:
        yield f"{notice.action_word}: {strip_tags(notice.short)}"


def _weigh(effort: Effort) -> JsonLd:
    """Return an effort as a multiple of rest, the unit that its source has."""
    return {"@type": "QuantitativeValue", "value": effort.met, "unitText": "MET"}


def _repeat(course: Course, lesson: Lesson) -> JsonLd:
    """Return breaths of one set and the rest between sets, where breaths are counted."""
    dose = lesson.drill.dose
    if not isinstance(dose, Dose):
        return {}
    has_rest = dose.rest_seconds and dose.rounds > 1
    language = language_of(course.settings.language)
    rest = language.say("{seconds} s between sets", seconds=language.number(dose.rest_seconds))
    return {"repetitions": dose.breaths, "restPeriods": rest if has_rest else ""}


def _studio(course: Course) -> JsonLd:
    return {"@type": "Organization", "name": course.settings.studio.name}


def _duration(seconds: float) -> str:
    """Write a duration as ISO 8601 has it."""
    return f"PT{round(seconds)}S"


def _drop_empty(values: JsonLd) -> JsonLd:
    return {key: value for key, value in values.items() if value not in ("", [], None)}
