"""Takes each line out of a card's template and prints cards: run with a copy of the tool.

Words: the copy's folder, then lessons as project/id. Prints the lines whose loss no card's
reading back finds.
"""

import sys
from collections.abc import Iterator
from pathlib import Path

from jinja2 import TemplateError

from builder.course.audience import Audience
from builder.course.lesson import Lesson
from builder.errors import BuilderError
from builder.publishing.cards.face import CardFace, face_cards
from builder.publishing.cards.findings import find_card_faults
from builder.publishing.cards.html import FRONT
from builder.publishing.cards.printing import print_card
from builder.publishing.environment import open_templates
from builder.reading.course_folder import read_course
from builder.resources import find_templates
from builder.sums.paper import PAPERS

ROOMY, DENSE = PAPERS["a4"], PAPERS["index"]


def list_faces(lesson: Path) -> Iterator[tuple[Lesson, CardFace]]:
    """Yield a lesson's cards with room and without."""
    course = read_course(lesson.parent).course
    assert course is not None
    found = course.by_id[lesson.name]
    for paper in (ROOMY, DENSE):
        (face,) = face_cards(course, [found], Audience.CLIENT, [paper])[paper.id]
        yield found, face


def is_found(faces: list[tuple[Lesson, CardFace]]) -> bool:
    """Tell whether printing or reading back stops any card."""
    open_templates.cache_clear()
    try:
        return any(find_card_faults(lesson, face, print_card(face)) for lesson, face in faces)
    except (
        TemplateError,
        BuilderError,
        TypeError,
        LookupError,
    ):  # as a part without its head raises
        return True


def main() -> None:
    tool, *lessons = sys.argv[1:]
    faces = [each for lesson in lessons for each in list_faces(Path(lesson))]
    path = find_templates() / "cards" / FRONT
    assert path.is_relative_to(tool)
    assert not is_found(faces)
    lines = path.read_text(encoding="utf-8").splitlines(keepends=True)
    for number in range(len(lines)):
        path.write_text("".join(lines[:number] + lines[number + 1 :]), encoding="utf-8")
        if not is_found(faces):
            sys.stdout.write(lines[number])


main()
