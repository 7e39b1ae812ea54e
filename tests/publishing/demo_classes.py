"""The demo program's classes, planned and put into words."""

from dataclasses import replace
from datetime import date
from functools import cache
from pathlib import Path

from builder.course.course import Course
from builder.planning.class_plan.planned import PlannedClass, Planner
from builder.publishing.views.class_in_words import view_class
from builder.publishing.views.class_view import ClassView
from builder.reading.course_folder import read_course
from builder.records.classes_folder import read_class_file
from builder.records.program import Program
from builder.records.record_folder import read_people, read_records

ROOT = Path(__file__).parents[2]
FOLDER = ROOT / "demo_program"
TODAY = date(2026, 11, 26)
"""Reviews of the course are reckoned up to it."""


@cache
def read_demo() -> tuple[Course, Program]:
    """Read the starter course and the people of its demo program."""
    course = read_course(ROOT, today=TODAY).course
    assert course is not None
    return course, read_records(FOLDER, course).program


@cache
def plan_demo(name: str) -> PlannedClass:
    """Plan one of the demo classes, named as its file is."""
    course, program = read_demo()
    known, _ = read_people(FOLDER, course)
    order, _ = read_class_file(FOLDER, FOLDER / "classes" / f"{name}.yml", known)
    assert order is not None
    planned = Planner(course, program, order).plan()
    assert isinstance(planned, PlannedClass)
    return planned


@cache
def view_demo(name: str) -> ClassView:
    """Put one of the demo classes into words."""
    return view_class(*read_demo(), plan_demo(name))


@cache
def view_full_house() -> ClassView:
    """Put a made-up class of twelve people and ten blocks into words."""
    course, program = read_demo()
    people, attendance, results = dict(program.people), program.attendance, program.results
    newcomers = {
        "C9": ("C3", "Oyelaran Babatunde"),
        "C10": ("C5", "Signe Lykkegaard"),
        "C11": ("C7", "Teodoro Quisquilla"),
        "C12": ("C2", "Wilhelmina Ostrander"),
    }
    for new, (like, name) in newcomers.items():
        people[new] = replace(people[like], id=new, name=name)
        attendance += tuple(
            replace(row, person_id=new) for row in program.attendance if row.person_id == like
        )
        results += tuple(
            replace(row, person_id=new) for row in program.results if row.person_id == like
        )
    full = Program(people, results, attendance)
    order = replace(
        plan_demo("2026-11-24-mixed").order,
        name="full-house",
        people=tuple(name for name in people if name.startswith("C")),
        coaches=("K1", "K2", "K3"),
        minutes=75,
        most_blocks=10,
        props=dict.fromkeys(course.vocabulary.props, 40),
    )
    planned = Planner(course, full, order).plan()
    assert isinstance(planned, PlannedClass)
    return view_class(course, full, planned)
