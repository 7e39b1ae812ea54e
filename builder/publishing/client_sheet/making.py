"""A person's sheet and calendar, made together: both are sound, or neither is written."""

from builder.publishing.calendar import write_calendar
from builder.publishing.client_sheet.job import CALENDAR, SHEET_NAMES, MadeSheet, SheetJob
from builder.publishing.client_sheet.printing import print_sheet, replace_lacking_signs


def make_sheet(job: SheetJob) -> MadeSheet:
    """Make and read back a sheet with its calendar; BuilderError where either isn't sound."""
    view, findings = replace_lacking_signs(job.view, job.place)
    printed = print_sheet(view, job.form)
    files = {
        SHEET_NAMES[job.form]: printed.pdf,
        CALENDAR: write_calendar(job.calendar, job.earlier),
    }
    return MadeSheet(files, printed.pages, findings)
