"""Former ids: what people kept under an old name belongs to one lesson."""

from collections.abc import Iterator

from builder import rules
from builder.course.course import Course
from builder.findings import Finding


def find_taken_former_ids(course: Course) -> Iterator[Finding]:
    """Report former ids that are a lesson's present id, or another lesson's former one."""
    owners = {name: name for name in course.by_id}
    for lesson in course.lessons:
        for index, name in enumerate(lesson.was):
            owner = owners.setdefault(name, lesson.id)
            if owner != lesson.id or name == lesson.id:
                yield rules.FORMER_ID_TAKEN.at(
                    lesson.at(f"was.{index}"),
                    f'the former id "{name}" belongs to the lesson "{owner}"',
                    "take it out, or give it to the lesson that people knew by it",
                )
