"""Where a lesson leads and where it comes from, in words."""

from builder.language import Language
from builder.publishing.views.lesson_view import LessonName, LessonView

Ways = tuple[tuple[str, tuple[LessonName, ...], str], ...]
"""Name of each way, its lessons, and what is said where there are none."""


def list_ways(language: Language, view: LessonView) -> Ways:
    """Return what comes before a lesson, beside it and after it."""
    say = language.say
    return (
        (say("Builds on"), view.builds_on, say("nothing: you can start here")),
        (say("Easier"), view.easier, say("this is the easiest of its kind")),
        (say("Harder"), view.harder, say("none yet")),
        (say("Leads to"), view.builds_into, say("the end of this way, for now")),
    )
