"""A person's sheet and calendar, made together: both are sound, or neither is written."""

from dataclasses import dataclass
from datetime import datetime, time

from builder.findings import Finding, Place
from builder.publishing.calendar import CalendarOrder, write_calendar
from builder.publishing.client_sheet.in_words import SheetOrder, view_sheet
from builder.publishing.client_sheet.printing import print_sheet, replace_lacking_signs
from builder.publishing.client_sheet.view import SheetForm

SHEET = "sheet.pdf"
LARGE_SHEET = "sheet-large.pdf"
CALENDAR = "practice.ics"
SHEET_NAMES = {SheetForm.REGULAR: SHEET, SheetForm.LARGE: LARGE_SHEET}


@dataclass(frozen=True, slots=True)
class Wishes:
    """How a sheet is wanted."""

    form: SheetForm
    stamp: datetime
    place: Place
    """The file of people, to name in findings."""
    at: time | None = None
    earlier: bytes = b""
    """The calendar that was given out before."""


@dataclass(frozen=True, slots=True)
class MadeSheet:
    """The finished files by name, and what to tell of them."""

    files: dict[str, bytes]
    pages: int
    findings: tuple[Finding, ...]


def make_sheet(order: SheetOrder, wishes: Wishes) -> MadeSheet:
    """Make and read back a sheet with its calendar; BuilderError where either isn't sound."""
    view, findings = replace_lacking_signs(view_sheet(order), wishes.place)
    printed = print_sheet(view, wishes.form)
    calendar = CalendarOrder(order.plan, order.studio, view.language, wishes.stamp, wishes.at)
    files = {
        SHEET_NAMES[wishes.form]: printed.pdf,
        CALENDAR: write_calendar(calendar, wishes.earlier),
    }
    return MadeSheet(files, printed.pages, findings)
