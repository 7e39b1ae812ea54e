"""Sheets of many people in any executor: each once, each whole, and no failure stops the others."""

import os
import signal
from collections.abc import Mapping, Sequence
from concurrent.futures import BrokenExecutor, Executor, Future, ThreadPoolExecutor
from dataclasses import dataclass, field, replace
from pathlib import Path
from typing import Any

import pytest

from builder.errors import BuilderError
from builder.publishing.client_sheet.job import CALENDAR, SHEET
from builder.publishing.client_sheet.keeping import RECORD, find_sheet_folder
from builder.publishing.client_sheet.many import Ending, Outcome, make_sheets
from builder.publishing.client_sheet.preparing import Desk, Wishes
from builder.publishing.client_sheet.view import SheetForm
from builder.work.cluster import open_cluster
from builder.work.progress import Pace, Stages
from tests.local_cluster import find_busy, find_pids, start_cluster
from tests.planning.starter import read_starter
from tests.publishing.client_sheet.demo import DAY, read_demo

SHORT = ("C4", "K1", "K2")
"""People whose sheets take little time."""
PEOPLE = ("C5", *SHORT, "C2")


def open_desk(day: Any = DAY) -> Desk:
    return Desk(read_starter(), read_demo(), Wishes(day, 4, SheetForm.REGULAR))


def make(
    project: Path, people: Sequence[str] = SHORT, desk: Desk | None = None, **more: Any
) -> tuple[Outcome, ...]:
    with ThreadPoolExecutor(1) as pool:
        return make_sheets(desk or open_desk(), people, project, pool, **more)


def list_endings(outcomes: Sequence[Outcome]) -> dict[str, Ending]:
    return {each.person_id: each.ending for each in outcomes}


def read_all(project: Path) -> Mapping[str, bytes]:
    folder = project / "coach"
    return {
        path.relative_to(folder).as_posix(): path.read_bytes()
        for path in sorted(folder.rglob("*"))
        if path.is_file()
    }


def test_each_person_gets_a_sheet_and_the_order_is_theirs(tmp_path: Path) -> None:
    outcomes = make(tmp_path, (*SHORT, SHORT[0]))
    assert list_endings(outcomes) == dict.fromkeys(SHORT, Ending.MADE)
    assert [each.person_id for each in outcomes] == list(SHORT)
    for person in SHORT:
        assert {SHEET, CALENDAR} <= {p.name for p in find_sheet_folder(tmp_path, person).iterdir()}


def test_what_stands_whole_is_left_and_what_does_not_is_made_again(tmp_path: Path) -> None:
    make(tmp_path)
    before = read_all(tmp_path)
    (find_sheet_folder(tmp_path, "K1") / SHEET).write_bytes(b"%PDF half of i")
    (find_sheet_folder(tmp_path, "K2") / CALENDAR).unlink()
    (find_sheet_folder(tmp_path, "C4") / RECORD).write_text("{", encoding="utf-8")
    assert set(list_endings(make(tmp_path)).values()) == {Ending.MADE}
    assert read_all(tmp_path) == before
    assert set(list_endings(make(tmp_path)).values()) == {Ending.STANDS}


@dataclass
class Clock:
    """A clock on which each look is three seconds after the one before."""

    now: float = 0.0
    shown: list[Pace | None] = field(default_factory=list)

    def __call__(self) -> float:
        self.now += 3
        return self.now


def test_a_run_that_goes_on_tells_what_stood_already_apart(tmp_path: Path) -> None:
    make(tmp_path, ("K1",))
    clock = Clock()
    make(tmp_path, ("K1", "K2"), progress=Stages(clock.shown.append, clock))
    paces = [(pace.done, pace.total, pace.before) for pace in clock.shown if pace]
    assert list(dict.fromkeys(paces)) == [(0, 2, 0), (1, 2, 1), (2, 2, 1)]


def test_whatever_a_sheet_is_made_from_makes_it_anew(tmp_path: Path) -> None:
    desk = open_desk()
    make(tmp_path, ("K1",), desk)
    (notice, *others) = desk.course.notices
    changed = (
        replace(desk, wishes=replace(desk.wishes, weeks=5)),
        replace(desk, wishes=replace(desk.wishes, form=SheetForm.LARGE)),
        replace(desk, course=replace(desk.course, notices=(replace(notice, short="No."), *others))),
        replace(desk, reading=replace(desk.reading, studio=replace(desk.reading.studio, name="x"))),
    )
    keys = {each.gather("K1").key for each in (desk, *changed)}
    assert len(keys) == 5


def test_a_failure_is_told_with_its_reason_and_the_others_go_on(tmp_path: Path) -> None:
    stranger = find_sheet_folder(tmp_path, "K1")
    stranger.mkdir(parents=True)
    (stranger / "mine.txt").write_text("mine", encoding="utf-8")
    outcomes = make(tmp_path, ("K1", "nobody", "K2"))
    assert [each.ending for each in outcomes] == [Ending.FAILED, Ending.FAILED, Ending.MADE]
    assert "tempoleaf did not make" in outcomes[0].reason
    assert 'nobody on record has the id "nobody"' in outcomes[1].reason


class Lossy(Executor):
    """Loses its workers at once, or has a fault of the tool in every job."""

    def __init__(self, error: Exception) -> None:
        self.error = error

    def submit(self, *_job: Any, **_more: Any) -> Future[Any]:
        lost: Future[Any] = Future()
        lost.set_exception(self.error)
        return lost


def test_lost_workers_stop_the_run_and_a_fault_of_the_tool_is_told(tmp_path: Path) -> None:
    with pytest.raises(BuilderError, match="ended from outside"):
        make_sheets(open_desk(), SHORT, tmp_path, Lossy(BrokenExecutor()))
    outcomes = make_sheets(open_desk(), SHORT, tmp_path, Lossy(KeyError("x")))
    assert {each.reason for each in outcomes} == {"KeyError: 'x'; report it as a fault of the tool"}


class Killer:
    """Kills a worker that is at work, once so many sheets are there."""

    def __init__(self, address: str, after: int) -> None:
        self.address, self.after = address, after
        self.pids = find_pids(address)
        self.victim = 0

    def tell(self, _name: str, done: int = 0, _total: int = 0, _before: int = 0) -> None:
        if done >= self.after and not self.victim:
            self.victim = self.pids[find_busy(self.address)]
            os.kill(self.victim, signal.SIGKILL)


def test_a_worker_of_a_cluster_is_killed_and_every_sheet_comes_out_once_and_whole(
    tmp_path: Path,
) -> None:
    here, there = tmp_path / "here", tmp_path / "there"
    make(here, PEOPLE)
    with start_cluster(2) as address:
        killer = Killer(address, after=len(PEOPLE) // 2)
        with open_cluster(address, is_private=True) as pool:
            outcomes = make_sheets(open_desk(), PEOPLE, there, pool, killer)
        assert killer.victim in killer.pids.values()
        assert killer.victim not in find_pids(address).values()
    assert [each.person_id for each in outcomes] == list(PEOPLE)
    assert {each.ending for each in outcomes} == {Ending.MADE}
    assert read_all(there) == read_all(here)
