"""Own figures: what is drawn of a lesson for one person."""

from builder.course.figure import Figure
from builder.course.lesson import Lesson
from builder.course.notice import Instead
from builder.sums.plain_figure import make_plain_figure


def find_own_figure(lesson: Lesson, instead: Instead | None) -> Figure | None:
    """Return a lesson's figure, or the plain one of the position that a person is moved to.

    The lesson's hands, limbs and props are drawn for its own position and would be wrong in any
    other; its breath is kept. Nothing is drawn rather than a position that isn't the person's.
    """
    if instead is None:
        return lesson.figure
    if not instead.position.pose:
        return None
    breath = lesson.figure.breath if lesson.figure else ()
    props = (use.prop.id for use in instead.props)
    return make_plain_figure(instead.position.pose, props, breath)
