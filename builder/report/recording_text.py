"""What became of an export, in words: per person what was added, and what was not."""

from builder.findings import stops_publishing
from builder.records.attendance import Attendance
from builder.records.recording import Recording
from builder.records.result import Result
from builder.report.counted import count


def write_recording(recording: Recording, *, is_trial: bool = False) -> str:
    """Write the findings, then what was added for each person by id, then the rest."""
    lines = [str(finding) for finding in recording.findings]
    ids = sorted({row.person_id for row in recording.added})
    verb = "would be added" if is_trial else "added"
    lines += [f"{each}: {_tell_rows(recording, each)} {verb}" for each in ids]
    if not ids:
        has_faults = any(stops_publishing(each, strict=False) for each in recording.findings)
        lines.append("Nothing was added." if has_faults else "Nothing is new.")
    if recording.already:
        lines.append(f"{count(recording.already, 'row')} {_were(recording.already)} there already.")
    if recording.aside:
        where = f" in {recording.kept}" if recording.kept else ""
        aside = count(recording.aside, "row")
        lines.append(f"{aside} can't be recorded and {_stand(recording.aside)} aside{where}.")
    return "\n".join(lines)


def _tell_rows(recording: Recording, person_id: str) -> str:
    rows = [row for row in recording.added if row.person_id == person_id]
    attendance = sum(isinstance(row, Attendance) for row in rows)
    results = sum(isinstance(row, Result) for row in rows)
    parts = [count(attendance, "attendance", "attendance")] if attendance else []
    parts += [count(results, "result")] if results else []
    return " and ".join(parts)


def _were(number: int) -> str:
    return "was" if number == 1 else "were"


def _stand(number: int) -> str:
    return "stands" if number == 1 else "stand"
