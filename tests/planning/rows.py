"""Attendance to reason about: rows written as days and outcomes of one person."""

from collections.abc import Collection
from datetime import date, timedelta

from hypothesis import strategies as st

from builder.planning.standing import Standing, find_standing
from builder.records.attendance import Attendance, Outcome
from tests.planning.starter import read_starter

FIRST = date(2026, 1, 5)
OUTCOMES = {"r": Outcome.READY, "a": Outcome.AGAIN, "e": Outcome.EASIER}


def on(offset: int) -> date:
    """Return the day so many days after the first."""
    return FIRST + timedelta(days=offset)


def make_row(offset: int, lesson: str, outcome: Outcome) -> Attendance:
    return Attendance(on(offset), "ro-1", lesson, outcome)


def do(lesson: str, outcomes: str, start: int = 0, step: int = 2) -> list[Attendance]:
    """Do a lesson every other day, an outcome a letter."""
    return [
        make_row(start + step * number, lesson, OUTCOMES[letter])
        for number, letter in enumerate(outcomes)
    ]


def stand(rows: Collection[Attendance], day: int = 40, placed: Collection[str] = ()) -> Standing:
    """Return the standing in the starter course, so many days after the first."""
    return find_standing(read_starter(), list(rows), placed, on(day))


def list_rows(span: int = 40) -> st.SearchStrategy[list[Attendance]]:
    """Draw rows of lessons that build on each other."""
    lessons = ("ready-to-start", "hands-check-sitting", "hands-check-lying", "rib-sides-check")
    drills = ("belly-breath", "side-rib-breath", "back-rib-breath", "weak-side-breath")
    row = st.builds(
        make_row,
        st.integers(0, span),
        st.sampled_from(lessons + drills),
        st.sampled_from(list(Outcome)),
    )
    return st.lists(row, max_size=40)
