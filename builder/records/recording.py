"""Recording: the new rows of an export are added to a program, each once, and none is lost."""

from collections import Counter
from collections.abc import Iterable, Sequence
from contextlib import nullcontext
from dataclasses import dataclass, field
from datetime import date
from hashlib import sha256
from pathlib import Path

from builder import rules
from builder.course.course import Course
from builder.errors import BuilderError
from builder.findings import Finding, Severity, sort_findings
from builder.records.attendance import Attendance
from builder.records.columns import ENTRY, KEPT_ASIDE, list_names
from builder.records.csv_text import Layout, write_csv_rows
from builder.records.event_rows import list_cells
from builder.records.export import Export, ExportRow, Kind, make_key, read_export
from builder.records.file_names import name_kept_file
from builder.records.journal import add_rows, hold_folder, refuse_spreadsheet, stop_for
from builder.records.known import Known
from builder.records.record_folder import find_events, read_people
from builder.records.result import Result
from builder.records.table_file import CSV
from builder.work.whole import write_whole_bytes

KEPT_FOLDER = "not-recorded"

_Key = tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Recording:
    """What became of an export."""

    added: tuple[Attendance | Result, ...]
    already: int
    """How many rows were on record before."""
    aside: int
    """How many rows couldn't be recorded."""
    kept: Path | None
    """The file that holds those rows with their reasons; None where there are none."""
    findings: tuple[Finding, ...]


@dataclass(slots=True)
class _OnRecord:
    """The rows of one kind that are there already, those of this run included."""

    by_entry: dict[str, _Key] = field(default_factory=dict)
    numbers: Counter[_Key] = field(default_factory=Counter)


def record_export(
    file: Path, folder: Path, course: Course, today: date | None = None, *, is_trial: bool = False
) -> Recording:
    """Add the rows of an export that aren't on record yet; a trial writes nothing.

    Rows that can't be recorded are kept aside with the reason. BuilderError where the program's
    own files stand in the way.
    """
    if not file.exists():
        raise BuilderError(f'there is no file "{file}"', "see how its name is spelt")
    with nullcontext() if is_trial else hold_folder(folder):
        known, faults = read_people(folder, course, today)
        if not known.has_people:
            raise stop_for(faults)
        export = read_export(file, known)
        chosen, doubled = _choose(folder, export, known)
        findings = sort_findings((*export.findings, *doubled))
        lines = _list_faulty_lines(export, findings)
        kept = None
        if not is_trial:
            _write(folder, chosen)
            kept = _keep_aside(folder / KEPT_FOLDER, name_kept_file(file, known), export, findings)
        already = len(export.by_line) - len(lines) - len(chosen)
        return Recording(tuple(row.value for row in chosen), already, len(lines), kept, findings)


def _choose(folder: Path, export: Export, known: Known) -> tuple[list[ExportRow], list[Finding]]:
    """Return the rows that are new, and findings for marks that stand for another row."""
    kinds = {row.kind for row in export.rows}
    records = {kind: _read_on_record(folder, kind, known) for kind in Kind if kind in kinds}
    chosen = []
    findings: list[Finding] = []
    seen: dict[Kind, Counter[_Key]] = {kind: Counter() for kind in kinds}
    for row in export.rows:
        key, entry = make_key(row.kind, row.check, known), row.value.entry
        on_record = records[row.kind]
        if entry and entry in on_record.by_entry:
            if on_record.by_entry[entry] != key:
                fact = f'the mark "{entry}" is on record with another row'
                cure = "see which of both is right, and give the other a mark of its own"
                findings.append(rules.ROW_DOUBLED.at(row.check.at(ENTRY), fact, cure))
            continue
        if entry:
            on_record.by_entry[entry] = key
        else:
            seen[row.kind][key] += 1
            if seen[row.kind][key] <= on_record.numbers[key]:
                continue
        chosen.append(row)
    return chosen, findings


def _read_on_record(folder: Path, kind: Kind, known: Known) -> _OnRecord:
    refuse_spreadsheet(folder / f"{kind.file_name}{CSV}")
    checks, findings = find_events(folder, kind.file_name, kind.columns)
    if checks is None:
        raise stop_for(findings)
    on_record = _OnRecord()
    for check in checks:
        key = make_key(kind, check, known)
        on_record.numbers[key] += 1
        if check.text(ENTRY):
            on_record.by_entry.setdefault(check.text(ENTRY), key)
    return on_record


def _write(folder: Path, chosen: Sequence[ExportRow]) -> None:
    for kind in Kind:
        rows = [list_cells(row.value) for row in chosen if row.kind is kind]
        add_rows(folder / f"{kind.file_name}{CSV}", kind.columns, rows)


def _list_faulty_lines(export: Export, findings: Iterable[Finding]) -> list[int]:
    """Return the numbers of the rows that can't be recorded; all of them without clear columns."""
    errors = [each for each in findings if each.rule.severity is Severity.ERROR]
    if any(each.rule is rules.COLUMNS_UNCLEAR for each in errors):
        return sorted(export.by_line)
    return sorted({each.place.line for each in errors} & export.by_line.keys())


def _keep_aside(
    folder: Path, name: str, export: Export, findings: Sequence[Finding]
) -> Path | None:
    """Write the rows that can't be recorded; the same rows for the same reasons are one file."""
    lines = _list_faulty_lines(export, findings)
    if not lines:
        return None
    reasons = _list_reasons(findings)
    skipped = len(KEPT_ASIDE) if export.header[: len(KEPT_ASIDE)] == list_names(KEPT_ASIDE) else 0
    rows = [(*list_names(KEPT_ASIDE), *export.header[skipped:])]
    for line in lines:
        cells = export.by_line[line].cells
        kept_cells = cells[skipped:] if len(cells) > 1 else cells
        rows.append((str(line), reasons.get(line, _UNCLEAR), *kept_cells))
    content = write_csv_rows(rows, Layout()).encode()
    kept = folder / f"{name}-{sha256(content).hexdigest()[:12]}{CSV}"
    folder.mkdir(exist_ok=True)
    if not kept.exists():
        write_whole_bytes(kept, content)
    return kept


_UNCLEAR = "the columns of the file are unclear"


def _list_reasons(findings: Iterable[Finding]) -> dict[int, str]:
    """Return why each row can't be recorded, by its number."""
    reasons: dict[int, list[str]] = {}
    for each in findings:
        if each.rule.severity is Severity.ERROR:
            reasons.setdefault(each.place.line, []).append(f"{each.fact}; {each.cure}")
    return {line: " / ".join(every) for line, every in reasons.items()}
