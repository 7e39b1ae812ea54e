"""Files of tables: CSV or a spreadsheet, by their ending."""

from pathlib import Path

from builder import rules
from builder.findings import Finding, Place
from builder.input_limits import TABLE_BYTES
from builder.records.csv_text import read_csv
from builder.records.spreadsheet import read_spreadsheet
from builder.records.table import Table
from builder.rules.excess import word_excess
from builder.work.plain_file import TooLargeError, read_plain

LARGEST_FILE_BYTES = TABLE_BYTES.most
CSV = ".csv"
SPREADSHEET = ".xlsx"


def find_table_file(folder: Path, name: str) -> tuple[Path | None, list[Finding]]:
    """Return the one file that holds a table of a folder, such as people; None without one."""
    found = [path for end in (CSV, SPREADSHEET) if (path := folder / f"{name}{end}").exists()]
    if len(found) < 2:
        return next(iter(found), None), []
    place = Place(show_path(folder, found[1]))
    fact = f'"{found[0].name}" is there as well'
    return None, [rules.TABLE_UNREADABLE.at(place, fact, "keep all rows in one of them")]


def show_path(folder: Path, path: Path) -> str:
    """Return how a file of a program folder is written in findings: its folder, then its name."""
    return f"{folder.absolute().name}/{path.name}"


def read_table(path: Path, shown: str) -> tuple[Table | None, list[Finding]]:
    """Read a table; None and a finding where the file can't be taken as one."""
    content, refusal = read_content(path, shown)
    if content is None:
        return None, refusal
    return parse_table(path, shown, content)


def parse_table(path: Path, shown: str, content: bytes) -> tuple[Table | None, list[Finding]]:
    """Read a table from the bytes of a file of that path."""
    if path.suffix.lower() == SPREADSHEET:
        return read_spreadsheet(shown, content, path.stem.lower())
    table, _, findings = read_csv(shown, content)
    return table, findings


def read_content(path: Path, shown: str) -> tuple[bytes | None, list[Finding]]:
    """Read a file's bytes; None and a finding where it is no plain file, too large or shut."""
    try:
        fault = _find_refusal(path)
        content = b"" if fault else read_plain(path, TABLE_BYTES.most)
    except TooLargeError as error:
        fault = (word_excess("the file", TABLE_BYTES, error.size), "split it by years")
    except OSError as error:
        fault = (f"the file can't be opened ({error.strerror})", "check that it may be read")
    if fault:
        return None, [rules.TABLE_UNREADABLE.at(Place(shown), *fault)]
    return content, []


def _find_refusal(path: Path) -> tuple[str, str] | None:
    if not path.is_file():
        return "this is no file of rows", "put a CSV file here"
    if path.suffix.lower() not in (CSV, SPREADSHEET):
        return f'"{path.suffix}" is no ending of a table', f"save it as {CSV} or {SPREADSHEET}"
    return None
