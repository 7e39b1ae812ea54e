"""In which position a person does a lesson, and with which props."""

import pytest

from builder.planning.own_drill import find_instead, find_own_drill
from builder.planning.permission import find_adaptations
from tests.planning.starter import make_person, read_starter


def list_own(lesson_id: str, *conditions: str) -> tuple[str, dict[str, int]]:
    course = read_starter()
    lesson = course.by_id[lesson_id]
    drill = find_own_drill(lesson, find_adaptations(course, make_person(*conditions), lesson))
    return drill.position.id, {use.prop.id: use.count for use in drill.props}


@pytest.mark.parametrize(
    ("lesson_id", "conditions", "position", "props"),
    [
        ("crocodile", ("pregnancy",), "sitting", {"block": 1, "chair": 1}),
        ("even-count", ("pregnancy",), "sitting", {"pillow": 1, "chair": 1}),
        ("even-count", ("reflux",), "sitting", {"pillow": 1, "chair": 1}),
        ("even-count", ("eye-disease",), "supine", {"mat": 1, "pillow": 1}),
        ("crocodile", ("eye-disease",), "sitting", {"block": 1, "chair": 1}),
        ("side-lying-breath", ("reflux",), "side-lying", {"mat": 1, "pillow": 2}),
        ("side-lying-breath", ("thin-bones",), "side-lying", {"mat": 1, "pillow": 2}),
        ("even-count", (), "supine", {"mat": 1, "pillow": 1}),
        ("standing-breath", ("pregnancy", "unsteady"), "standing", {"chair": 1}),
    ],
)
def test_the_notices_of_the_starter_say_where_and_with_what(
    lesson_id: str, conditions: tuple[str, ...], position: str, props: dict[str, int]
) -> None:
    assert list_own(lesson_id, *conditions) == (position, props)


def test_without_a_change_of_position_the_drill_is_the_lessons_own() -> None:
    course = read_starter()
    lesson = course.by_id["standing-breath"]
    changes = find_adaptations(course, make_person("unsteady"), lesson)
    assert changes
    assert find_instead(changes) is None
    assert find_own_drill(lesson, changes) is lesson.drill
