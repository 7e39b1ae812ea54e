"""Sheets of the demo program's people, as their coach would make them."""

from datetime import date
from functools import cache
from pathlib import Path

from builder.planning.home_plan import find_class_days, plan_home
from builder.planning.overview import survey_person
from builder.publishing.client_sheet.in_words import SheetOrder, view_sheet
from builder.publishing.client_sheet.printing import PrintedSheet, print_sheet
from builder.publishing.client_sheet.view import SheetForm, SheetView
from builder.records.program_reading import ProgramReading, read_program
from builder.records.record_folder import read_records
from tests.planning.starter import ROOT, read_starter

FOLDER = ROOT / "demo_program"
DAY = date(2026, 11, 24)


@cache
def read_demo(folder: Path = FOLDER) -> ProgramReading:
    return read_program(folder, read_records(folder, read_starter()))


@cache
def order_sheet(person_id: str) -> SheetOrder:
    reading, course = read_demo(), read_starter()
    program = reading.records.program
    overview = survey_person(course, program, program.people[person_id], DAY)
    days = find_class_days(reading.classes, reading.courses, person_id)
    plan = plan_home(course, program, overview, days)
    return SheetOrder(course, reading.studio, overview, plan)


@cache
def see(person_id: str) -> SheetView:
    return view_sheet(order_sheet(person_id))


@cache
def print_demo(person_id: str, form: SheetForm = SheetForm.REGULAR) -> PrintedSheet:
    return print_sheet(see(person_id), form)
