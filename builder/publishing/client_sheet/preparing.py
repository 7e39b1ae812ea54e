"""From the records of a person to the job of printing their sheet."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, time
from functools import cached_property
from typing import TypeVar

from builder.course.course import Course
from builder.planning.home_plan import HomePlan, find_class_days, plan_home
from builder.planning.overview import find_person, survey_person
from builder.publishing.calendar import CalendarOrder, find_stamp
from builder.publishing.client_sheet.in_words import SheetOrder, view_sheet
from builder.publishing.client_sheet.job import SheetJob
from builder.publishing.client_sheet.view import SheetForm
from builder.records.attendance import Attendance
from builder.records.person import Person
from builder.records.program import Program
from builder.records.program_reading import ProgramReading
from builder.records.result import Result
from builder.work.digest import digest_value
from builder.work.press import digest_press

_Row = TypeVar("_Row", Attendance, Result)


@dataclass(frozen=True, slots=True)
class Wishes:
    """How sheets are wanted."""

    day: date
    weeks: int
    form: SheetForm
    at: time | None = None
    epoch: str | None = None
    """SOURCE_DATE_EPOCH, where it is set."""


@dataclass(frozen=True, slots=True)
class Source:
    """All of one person that a sheet is made from; nobody else's rows are in it."""

    person: Person
    program: Program
    class_days: tuple[date, ...]
    key: str
    """A digest of this, of the course, the studio, the wishes and the tool."""


@dataclass(frozen=True, slots=True)
class Prepared:
    """A sheet that only has to be printed."""

    plan: HomePlan
    job: SheetJob


@dataclass(frozen=True)
class Desk:
    """A course, its program, and how sheets are wanted."""

    course: Course
    reading: ProgramReading
    wishes: Wishes

    def list_people(self) -> tuple[str, ...]:
        """Return everybody's id, those included whose rows have faults: they are to be told of."""
        records = self.reading.records
        return (*records.program.people, *sorted(records.known.unreadable_people))

    def gather(self, person_id: str) -> Source:
        """Gather what is known of a person.

        BuilderError for an unknown one, and where a row of theirs can't be read.
        """
        records = self.reading.records
        person = find_person(records.program, person_id, records.known.unreadable_people)
        records.refuse_half_known(person.id)
        own = Program(
            {person.id: person},
            self._results.get(person.id, ()),
            self._attendance.get(person.id, ()),
        )
        days = find_class_days(self.reading.classes, self.reading.courses, person.id)
        key = digest_value((self._shared, own, days))
        return Source(person, own, days, key)

    def prepare(self, source: Source, earlier: bytes) -> Prepared:
        """Plan a person's weeks and put them into words; ``earlier`` is their last calendar."""
        wishes, studio = self.wishes, self.reading.studio
        overview = survey_person(self.course, source.program, source.person, wishes.day)
        plan = plan_home(
            self.course, source.program, overview, source.class_days, weeks=wishes.weeks
        )
        view = view_sheet(SheetOrder(self.course, studio, overview, plan))
        stamp = find_stamp(overview, source.program, wishes.epoch)
        calendar = CalendarOrder(plan, studio, view.language, stamp, wishes.at)
        place = self.reading.people_place
        return Prepared(plan, SheetJob(view, wishes.form, calendar, place, earlier))

    @cached_property
    def _shared(self) -> str:
        """What all sheets are made from alike."""
        reading = self.reading
        parts = (self.course, reading.studio, reading.people_place, self.wishes)
        return digest_value((digest_press(), *parts))

    @cached_property
    def _results(self) -> dict[str, tuple[Result, ...]]:
        return _part(self.reading.records.program.results)

    @cached_property
    def _attendance(self) -> dict[str, tuple[Attendance, ...]]:
        return _part(self.reading.records.program.attendance)


def _part(rows: Iterable[_Row]) -> dict[str, tuple[_Row, ...]]:
    """Return the rows of each person, in the order of their file."""
    own: dict[str, list[_Row]] = {}
    for row in rows:
        own.setdefault(row.person_id, []).append(row)
    return {person: tuple(each) for person, each in own.items()}
