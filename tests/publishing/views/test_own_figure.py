"""What is drawn for a person whom a notice moves."""

from dataclasses import replace

from builder.course.notice import Instead
from builder.course.vocabulary import PropUse
from builder.publishing.views.own_figure import find_own_figure
from tests.planning.starter import read_starter

COURSE = read_starter()
CROCODILE = COURSE.by_id["crocodile"]
CHAIR = PropUse(COURSE.vocabulary.props["chair"], 1)
SITTING = COURSE.vocabulary.positions["sitting"]


def test_nobody_who_is_not_moved_gets_another_figure() -> None:
    assert CROCODILE.figure
    assert find_own_figure(CROCODILE, None) is CROCODILE.figure


def test_who_sits_instead_is_drawn_sitting_with_the_lessons_breath() -> None:
    figure = find_own_figure(CROCODILE, Instead(SITTING, (CHAIR,)))
    assert figure
    assert CROCODILE.figure
    assert (figure.inhale.base, figure.exhale.base) == ("sitting", "sitting")
    assert figure.breath == CROCODILE.figure.breath
    assert list(figure.props) == ["chair"]


def test_a_position_without_a_pose_is_not_drawn_as_the_lessons_own() -> None:
    assert find_own_figure(CROCODILE, Instead(replace(SITTING, pose=""))) is None
