from dataclasses import replace

import pytest

from builder.checks import props
from builder.course.lesson import Passage
from builder.course.notice import Instead
from builder.course.vocabulary import Prop, PropUse

LINE = 21


def found(check, course):
    return [str(finding) for finding in check(course)]


def say(change_lesson, step, course=None, **listed):
    parts = {"course": course} if course else {}
    known = (course or change_lesson()).vocabulary.props
    uses = tuple(PropUse(known[name], count) for name, count in listed.items())
    return change_lesson(steps=(Passage(step, LINE),), props=uses, set_up=(), **parts)


@pytest.fixture
def rich_course(small_course):
    """The small course with the props of a studio that has bands, blocks and pillows."""
    more = {
        "pillow": Prop("pillow", "pillow", "a folded towel"),
        "chair": Prop("chair", "chair", "a firm stool or the edge of a bench"),
        "block": Prop("block", "light block", "a thick paperback book"),
        "loop-band": Prop("loop-band", "loop band", "a pair of tights, tied"),
        "long-band": Prop("long-band", "long band", "a pair of tights, untied"),
    }
    vocabulary = small_course.vocabulary
    vocabulary = replace(vocabulary, props={**vocabulary.props, **more})
    return replace(small_course, vocabulary=vocabulary)


@pytest.mark.parametrize(("stand_in", "alarms"), [("", 1), (" ", 1), ("a folded blanket", 0)])
def test_every_prop_has_a_stand_in(small_course, stand_in, alarms):
    vocabulary = small_course.vocabulary
    ball = replace(vocabulary.props["ball"], stand_in=stand_in)
    course = replace(
        small_course, vocabulary=replace(vocabulary, props={**vocabulary.props, "ball": ball})
    )
    findings = found(props.find_props_without_stand_in, course)
    assert len(findings) == alarms
    assert all(line.startswith("content/course.yml:17:9: P101") for line in findings)


@pytest.mark.parametrize(
    ("step", "listed", "says"),
    [
        ("Hold the ball with both knees.", {}, '"the ball"'),
        ("Hold the ball with both knees.", {"ball": 1}, None),
        ("Lay a small towel under the head.", {"ball": 1}, '"a small towel"'),
        ("Stack two blocks.", {}, '"two blocks"'),
        ("Sit on the front of your chair.", {}, '"your chair"'),
        ("Step into the band.", {}, '"the band"'),
        ("Step into the band.", {"loop-band": 1}, None),
        ("Step into the band.", {"long-band": 1}, None),
        ("Lay a folded towel under the head.", {"pillow": 1}, None),  # the pillow's stand-in
        ("Stand on the balls of your feet.", {}, None),
        ("Press the ball of the foot down.", {}, None),
        ("Breathe as if a band went round your ribs.", {}, None),
        ("Let the belly rise like a soft ball.", {}, None),
        ("Lie without a pillow.", {}, None),
        ("No mat is needed, no chair either.", {}, None),
        ("Do not block the nose. It matters.", {}, None),
        ("Go back to [[the-ball]].", {}, None),
        ("Wear a headband or a wrist-band.", {}, None),
    ],
)
def test_what_the_text_uses_is_listed(change_lesson, rich_course, step, listed, says):
    course = say(change_lesson, step, rich_course, **listed)
    findings = [line for line in found(props.find_unlisted_props, course) if "plain-c" in line]
    assert len(findings) == bool(says)
    assert all(says in line and f":{LINE}:1: P102" in line for line in findings)


def test_a_band_of_either_kind_is_asked_for(change_lesson, rich_course):
    course = say(change_lesson, "Step into the band.", rich_course)
    findings = found(props.find_unlisted_props, course)
    assert len(findings) == 1
    assert "add loop-band: 1 or long-band: 1 to props" in findings[0]


@pytest.mark.parametrize(
    ("step", "listed", "alarms"),
    [
        ("Lie on the mat.", {"mat": 1}, 0),
        ("Lie down.", {"mat": 1}, 1),
        ("Lie on a folded blanket.", {"mat": 1}, 0),  # its stand-in
        ("Lay two towels under the head.", {"towel": 1}, 0),
        ("Lay a towel under the head.", {"pillow": 1}, 1),  # a towel is a prop of its own
        ("It matters.", {"mat": 1}, 1),
        ("Squeeze the cushion.", {"ball": 1}, 0),
        ("Go back to [[mat]].", {"mat": 1}, 1),
    ],
)
def test_what_is_listed_is_used(change_lesson, rich_course, step, listed, alarms):
    findings = found(props.find_unused_props, say(change_lesson, step, rich_course, **listed))
    assert len(findings) == alarms
    assert all(":13:" in line and "P103" in line for line in findings)


@pytest.mark.parametrize(("count", "held", "alarms"), [(6, 6, 0), (7, 6, 1), (7, None, 0)])
def test_a_class_set_is_enough_for_one(change_lesson, small_course, count, held, alarms):
    ball = replace(small_course.vocabulary.props["ball"], class_set=held)
    course = change_lesson(props=(PropUse(ball, count),))
    assert len(found(props.find_props_over_set, course)) == alarms


def test_what_a_notice_moves_people_to_is_counted_too(small_course) -> None:
    towel = replace(small_course.vocabulary.props["towel"], class_set=1)
    sitting = Instead(small_course.vocabulary.positions["sitting"], (PropUse(towel, 2),))
    notices = tuple(
        replace(each, instead=sitting) if each.id == "on-the-back" else each
        for each in small_course.notices
    )
    (told,) = found(props.find_props_over_set, replace(small_course, notices=notices))
    assert told.startswith("content/notices/on-the-back.md:")
