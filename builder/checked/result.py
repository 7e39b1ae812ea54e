"""The result of a check as a whole: where nothing at all has changed, it is the one of before."""

from datetime import date
from pathlib import Path

from builder.checked.answer import Checked
from builder.reading.folder_state import digest_folder
from builder.reading.latest_day import find_latest_day
from builder.rules.plain import make_rows, take_rows
from builder.work.kept import make_key, open_kept
from builder.work.tool import digest_tool

CONTENT = "content"


def check_project(project: Path, today: date | None = None) -> Checked:
    """Return what is found in the course of a project.

    The key holds every byte of the content folder, the tool and the day. A folder that changed
    while it was read has two keys, and nothing is kept of it.
    """
    kept = open_kept(project, "results")
    key = _make_key(project, today)
    entry = kept.get(key) if key else None
    if entry is not None:
        rows, lessons = entry
        return Checked(take_rows(rows), lessons)
    checked = _check(project, today)
    if key and key == _make_key(project, today):
        kept.put(key, [make_rows(checked.findings), checked.lessons])
        kept.save()
    return checked


def _check(project: Path, today: date | None) -> Checked:
    from builder.checked.course import find_all, read_kept_course  # noqa: PLC0415  # loads in 0.3 s

    return find_all(read_kept_course(project, CONTENT, today), project)


def _make_key(project: Path, today: date | None) -> str | None:
    folder = digest_folder(project / CONTENT)
    if folder is None:
        return None
    days = (today or date.today(), today or find_latest_day())
    return make_key("result", digest_tool(), folder, *(day.isoformat() for day in days))
