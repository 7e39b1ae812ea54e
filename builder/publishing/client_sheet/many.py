"""Sheets of many people: each a job of its own, written whole as soon as it is there.

What stands already, made from the same things, is left alone, so that a run which was ended goes
on where it stopped. What fails for one person is told, and the others go on.
"""

from collections import deque
from collections.abc import Iterator, Sequence
from concurrent.futures import FIRST_COMPLETED, BrokenExecutor, Executor, Future, wait
from dataclasses import dataclass, field
from enum import StrEnum
from itertools import islice
from pathlib import Path

from builder.errors import BuilderError
from builder.findings import Finding
from builder.publishing.cards.window import find_loss
from builder.publishing.client_sheet.job import MadeSheet, SheetJob, run_sheet
from builder.publishing.client_sheet.keeping import (
    find_sheet_folder,
    is_current,
    keep_sheet,
    mend_sheets,
    read_earlier_calendar,
)
from builder.publishing.client_sheet.preparing import Desk, Source
from builder.work.progress import SILENT, Progress

_MOST_WAITING = 1000
"""Jobs that are given out at once (ours): more would only fill memory, here and there."""


class Ending(StrEnum):
    """What became of one sheet."""

    MADE = "made"
    STANDS = "stood already"
    """Made from the same things."""
    FAILED = "failed"


@dataclass(frozen=True, slots=True)
class Outcome:
    """One person's sheet."""

    person_id: str
    ending: Ending
    reason: str = ""
    """Of a failure: what is wrong, and its cure."""
    findings: tuple[Finding, ...] = ()


@dataclass(slots=True)
class _Run:
    """One run over many people."""

    desk: Desk
    project: Path
    pool: Executor
    jobs: dict[Future[MadeSheet], Source] = field(default_factory=dict)

    def begin(self, person_id: str) -> Outcome | None:
        """Give a person's job out; tell where there is none to give."""
        try:
            source = self.desk.gather(person_id)
            folder = find_sheet_folder(self.project, source.person.id)
            if is_current(folder, source.key):
                return Outcome(person_id, Ending.STANDS)
            job = self.desk.prepare(source, read_earlier_calendar(folder)).job
        except BuilderError as error:
            return Outcome(person_id, Ending.FAILED, str(error))
        self.jobs[self._submit(job)] = source
        return None

    def end(self, done: Future[MadeSheet]) -> Outcome:
        """Write what came back."""
        source = self.jobs.pop(done)
        person_id, error = source.person.id, done.exception()
        if loss := find_loss(done):
            return Outcome(person_id, Ending.FAILED, f"{loss}; see that enough memory is free")
        if isinstance(error, BrokenExecutor):
            raise _tell_lost() from error
        if isinstance(error, BuilderError):
            return Outcome(person_id, Ending.FAILED, str(error))
        if error is not None:
            reason = f"{type(error).__name__}: {error}; report it as a fault of the tool"
            return Outcome(person_id, Ending.FAILED, reason)
        made = done.result()
        key = "" if made.findings else source.key  # what is to be told is told each time
        try:
            keep_sheet(find_sheet_folder(self.project, person_id), made, key)
        except BuilderError as refused:
            return Outcome(person_id, Ending.FAILED, str(refused))
        return Outcome(person_id, Ending.MADE, findings=made.findings)

    def _submit(self, job: SheetJob) -> Future[MadeSheet]:
        try:
            return self.pool.submit(run_sheet, job)
        except BrokenExecutor as error:
            raise _tell_lost() from error


def make_sheets(
    desk: Desk,
    people: Sequence[str],
    project: Path,
    pool: Executor,
    progress: Progress = SILENT,
) -> tuple[Outcome, ...]:
    """Make the sheets of people in any executor, and return what became of each in their order.

    Raises BuilderError where workers are lost again and again; what was written by then stands.
    """
    mend_sheets(project)
    run, waiting = _Run(desk, project, pool), deque(dict.fromkeys(people))
    outcomes: dict[str, Outcome] = {}
    total, stood = len(waiting), 0
    while waiting or run.jobs:
        progress.tell("sheets", len(outcomes), total, stood)
        for outcome in _turn(run, waiting):
            outcomes[outcome.person_id] = outcome
            stood += outcome.ending is Ending.STANDS
    progress.tell("sheets", len(outcomes), total, stood)
    return tuple(outcomes[name] for name in dict.fromkeys(people))


def _turn(run: _Run, waiting: deque[str]) -> Iterator[Outcome]:
    """Give one job out while there is room for it, and take in all that is done."""
    if waiting and len(run.jobs) < _MOST_WAITING:
        outcome = run.begin(waiting.popleft())
        if outcome:
            yield outcome
        done = [job for job in islice(run.jobs, _MOST_WAITING) if job.done()]
    else:
        done = list(wait(run.jobs, return_when=FIRST_COMPLETED).done)
    for job in done:
        yield run.end(job)


def _tell_lost() -> BuilderError:
    return BuilderError(
        "workers that print sheets were ended from outside, twice and more",
        "see that they have memory enough, then run this again: what is finished stays",
    )
