"""The option ``--language``: the course in one of its other languages."""

from builder.course.course import Course
from builder.errors import BuilderError


def choose_language(course: Course, language: str) -> Course:
    """Return the course in a language, in its own where none is named.

    Raises BuilderError where it isn't there in that language.
    """
    if language in ("", course.settings.language):
        return course
    if language not in course.translations:
        raise BuilderError(
            f'the course is not there in "{language}"',
            f"give one of {', '.join(course.translations) or 'its languages, once it has any'}",
        )
    return course.translations[language]
