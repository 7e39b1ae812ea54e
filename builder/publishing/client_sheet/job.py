"""What a worker is given to print a sheet: all that stands on it, and nothing else of anybody."""

from dataclasses import dataclass

from builder.findings import Finding, Place
from builder.publishing.calendar import CalendarOrder
from builder.publishing.client_sheet.view import SheetForm, SheetView

SHEET = "sheet.pdf"
LARGE_SHEET = "sheet-large.pdf"
CALENDAR = "practice.ics"
SHEET_NAMES = {SheetForm.REGULAR: SHEET, SheetForm.LARGE: LARGE_SHEET}


@dataclass(frozen=True, slots=True)
class SheetJob:
    """A sheet and its calendar, in words already."""

    view: SheetView
    form: SheetForm
    calendar: CalendarOrder
    place: Place
    """The file of people, to name in findings."""
    earlier: bytes = b""
    """The calendar that was given out before."""


@dataclass(frozen=True, slots=True)
class MadeSheet:
    """The finished files by name, and what to tell of them."""

    files: dict[str, bytes]
    pages: int
    findings: tuple[Finding, ...]


def run_sheet(job: SheetJob) -> MadeSheet:
    """Make a sheet; the PDF engine is loaded here and not before."""
    from builder.publishing.client_sheet.making import make_sheet  # noqa: PLC0415  # loads in 0.4 s

    return make_sheet(job)
