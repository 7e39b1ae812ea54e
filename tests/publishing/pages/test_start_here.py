"""The self-check's page has its questions and ways, and nothing of a coach's records."""

from dataclasses import replace
from datetime import date
from pathlib import Path

from builder.course.placement import Evidence
from builder.publishing.pages.links import Site
from builder.publishing.pages.start_here import make_start_page
from builder.reading.course_folder import read_course

ROOT = Path(__file__).parents[3]


def test_what_answers_for_a_coach_is_not_shipped() -> None:
    course = read_course(ROOT, today=date(2026, 11, 26)).course
    assert course is not None
    table = course.placement
    assert table is not None
    assert any(question.evidence != Evidence() for question in table.questions)
    bare = tuple(replace(question, evidence=Evidence()) for question in table.questions)
    page = make_start_page(Site(course), table)
    assert page == make_start_page(Site(course), replace(table, questions=bare))
    assert not [name for name in ("sore-knees", "first-mover", "otherwise") if name in page]


def test_a_translated_table_asks_a_coachs_records_the_same() -> None:
    course = read_course(ROOT, today=date(2026, 11, 26)).course
    assert course is not None
    spanish = course.translations["es"].placement
    assert spanish is not None
    assert course.placement is not None
    assert [each.evidence for each in spanish.questions] == [
        each.evidence for each in course.placement.questions
    ]
