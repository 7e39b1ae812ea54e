"""The small course on cards."""

import pytest

from builder.course.audience import Audience
from builder.course.course import Course
from builder.publishing.cards.face import CardFace, face_cards
from builder.publishing.cards.printing import print_card
from builder.publishing.cards.record import CardRecord
from builder.reading.course_folder import read_course
from builder.sums.paper import PAPERS
from tests.conftest import SMALL_COURSE


@pytest.fixture(scope="session")
def small_course() -> Course:
    read = read_course(SMALL_COURSE).course
    assert read is not None
    return read


def make_face(
    course: Course, lesson: str, paper: str = "a6", audience: Audience = Audience.CLIENT
) -> CardFace:
    return face_cards(course, [course.by_id[lesson]], audience, [PAPERS[paper]])[paper][0]


@pytest.fixture(scope="session")
def hold_card(small_course: Course) -> CardRecord:
    """Return the A6 card of the lesson with a hold."""
    return print_card(make_face(small_course, "short-hold"))


@pytest.fixture(scope="session")
def coach_card(small_course: Course) -> CardRecord:
    """Return the A5 coach card of the lesson with a hold."""
    return print_card(make_face(small_course, "short-hold", "a5", Audience.COACH))
