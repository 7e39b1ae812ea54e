"""On what a coach prints for a class or a person, markup in any words stays words."""

from collections import Counter
from collections.abc import Callable, Mapping
from dataclasses import fields, is_dataclass, replace
from datetime import UTC, datetime, time
from typing import Any

import pytest
from icalendar import Calendar
from selectolax.lexbor import LexborHTMLParser

from builder.course.audience import Audience
from builder.course.course import Course
from builder.language import language_of
from builder.planning.group import survey_group
from builder.publishing.calendar import CalendarOrder, write_calendar
from builder.publishing.cards.face import face_cards
from builder.publishing.cards.html import write_back, write_front
from builder.publishing.cards.setting import Setting
from builder.publishing.class_card.html import make_face, write_class_card
from builder.publishing.class_card.setting import SETTINGS
from builder.publishing.class_screen.screen import write_class_screen
from builder.publishing.client_sheet.html import write_sheet
from builder.publishing.client_sheet.setting import ROOMY
from builder.publishing.group_view.view import GroupView, view_group
from builder.publishing.group_view.write import write_group_html
from builder.reading.course_folder import read_course
from builder.records.program import Program
from builder.sums.paper import PAPERS
from tests.conftest import SMALL_COURSE
from tests.planning.rows import do, on
from tests.planning.starter import make_person, read_starter
from tests.publishing.client_sheet.demo import order_sheet, see
from tests.publishing.demo_classes import view_demo
from tests.trust.marked import MARK

Shape = Counter[tuple[str | None, tuple[str, ...]]]


def mark(value: Any) -> Any:
    """Put the mark behind every text of some words, however deep it lies."""
    if type(value) is str and " " in value:
        return f"{value} {MARK}"
    if is_dataclass(value) and not isinstance(value, type):
        told = {each.name: getattr(value, each.name) for each in fields(value) if each.init}
        return replace(value, **{name: mark(part) for name, part in told.items()})
    if type(value) is tuple:
        return tuple(mark(part) for part in value)
    if isinstance(value, Mapping):
        return {name: mark(part) for name, part in value.items()}
    return value


def find_shape(html: str) -> Shape:
    """Count the elements of a page by their names and those of their attributes."""
    nodes = LexborHTMLParser(html).css("*")
    # The root of a card has a class where its words are long.
    inside = (node for node in nodes if node.tag != "html")
    return Counter((node.tag, tuple(sorted(node.attributes))) for node in inside)


def view_ann() -> GroupView:
    rows = [*do("ready-to-start", "r"), *do("belly-breath", "aaa")]
    people = {"c1": replace(make_person("back-pain"), id="c1", name="Ann of the hill")}
    every = tuple(replace(row, person_id="c1") for row in rows)
    group = survey_group(read_starter(), Program(people, (), every), on(60))
    return view_group(read_starter(), group, order_sheet("C3").studio)


def write_card(course: Course) -> str:
    lesson = course.by_id["short-hold"]
    paper = PAPERS["a5"]
    (face,) = face_cards(course, [lesson], Audience.COACH, [paper])["a5"]
    setting = Setting(9, is_dense=False)
    return write_front(face, setting) + write_back(face, setting)


def read_small() -> Course:
    course = read_course(SMALL_COURSE).course
    assert course is not None
    return course


PAPERS_OF_A_COACH: dict[str, tuple[Callable[[], Any], Callable[[Any], str]]] = {
    "class card": (
        lambda: view_demo("2026-11-24-mixed"),
        lambda view: write_class_card(make_face(view, SETTINGS[0]), SETTINGS[0]),
    ),
    "class screen": (lambda: view_demo("2026-11-24-mixed"), write_class_screen),
    "client sheet": (lambda: see("C3"), lambda view: write_sheet(view, ROOMY)),
    "group": (view_ann, write_group_html),
    "card": (read_small, write_card),
}


@pytest.mark.parametrize("name", PAPERS_OF_A_COACH)
def test_no_words_become_elements_or_attributes(name: str) -> None:
    make, write = PAPERS_OF_A_COACH[name]
    plain, marked = write(make()), write(mark(make()))
    added = find_shape(marked) - find_shape(plain)
    assert not {shape for shape in added if shape not in find_shape(plain)}
    assert "&lt;img src=x onerror=pwned()&gt;" in marked
    assert "<img src=x" not in marked


def test_a_calendar_holds_no_line_of_an_author() -> None:
    order = order_sheet("C3")
    studio = replace(order.studio, name="x\r\nATTACH:file:///etc/hostname\r\nX-A:b")
    stamp = datetime(2026, 11, 24, tzinfo=UTC)
    language = language_of("en-GB")
    calendar = write_calendar(CalendarOrder(order.plan, studio, language, stamp, time(8)))
    events = Calendar.from_ical(calendar).walk("VEVENT")
    assert events
    assert not [event for event in events if {"ATTACH", "X-A"} & event.keys()]
