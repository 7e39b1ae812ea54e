"""A course with what was kept of its people: both are checked, the second by the first."""

from dataclasses import replace
from pathlib import Path

from builder.checked.answer import Checked
from builder.checked.course import find_all, read_kept_course
from builder.findings import sort_findings
from builder.records.folder import find_program_folder
from builder.records.program_folder import find_program_faults


def check_with_program(project: Path, program: Path) -> Checked:
    """Return what is found in both together; paths are those of each folder."""
    reading = read_kept_course(project)
    checked = find_all(reading, project)
    if reading.course is None:
        return checked
    folder = find_program_folder(Path(), program)
    faults = find_program_faults(folder, reading.course)
    return replace(checked, findings=sort_findings((*checked.findings, *faults)))
