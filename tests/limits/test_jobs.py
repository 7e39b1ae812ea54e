"""Jobs that take all time or all memory: they end, and nobody else's work is lost."""

import os
import sys
import time
from concurrent.futures import Executor, Future
from functools import partial
from pathlib import Path

import pytest

from builder.course.course import Course
from builder.errors import BuilderError
from builder.publishing.cards.course_cards import CardOrder, make_cards
from builder.publishing.cards.face import CardFace
from builder.publishing.cards.outline import Outliner
from builder.publishing.cards.record import CardRecord
from builder.publishing.cards.window import Job, find_loss, run_in_turn
from builder.publishing.cards.worker import run_batch
from builder.publishing.posters.run import paint_all
from builder.publishing.site.posters import list_posters
from builder.reading.course_folder import read_course
from builder.work.lone_tries import JobLostError
from builder.work.pool import open_pool
from builder.work.store import ContentStore
from tests.conftest import SMALL_COURSE

SECONDS = 1


def spin(number: int) -> int:
    """Never come to an end, at the number 3 alone."""
    while number == 3:
        pass
    return number


def sleep(number: int) -> int:
    """Wait for what never comes, without any work."""
    time.sleep(999 if number == 3 else 0)
    return number


def grow(megabytes: int) -> int:
    return len(bytearray(megabytes * 1024 * 1024))


def test_a_job_without_end_is_ended_and_all_others_are_done() -> None:
    with open_pool(2, seconds=SECONDS) as pool:
        jobs = [pool.submit(spin, number) for number in range(9)]
        done = [job.result(60) for number, job in enumerate(jobs) if number != 3]
        with pytest.raises(JobLostError, match=f"it took more than {SECONDS} seconds"):
            jobs[3].result(60)
    assert done == [number for number in range(9) if number != 3]


def test_so_is_one_that_only_waits() -> None:
    with open_pool(1, seconds=0.5) as pool:
        jobs = [pool.submit(sleep, number) for number in range(5)]
        with pytest.raises(JobLostError, match="it took more than"):
            jobs[3].result(60)
        assert jobs[4].result(60) == 4


def test_two_jobs_without_end_don_t_take_each_other_along() -> None:
    with open_pool(2, seconds=1) as pool:
        jobs = [pool.submit(spin, number) for number in (3, 3, 4)]
        assert jobs[2].result(60) == 4
        assert [type(job.exception(60)) for job in jobs[:2]] == [JobLostError] * 2


@pytest.mark.skipif(sys.platform != "linux", reason="other systems bound no memory")
def test_a_worker_is_refused_more_memory_than_it_may_have() -> None:
    with open_pool(1, most_bytes=600 * 1024 * 1024) as pool:
        with pytest.raises(MemoryError):
            pool.submit(grow, 2000).result(60)
        assert pool.submit(grow, 1).result(60) == 1024 * 1024


def test_a_worker_says_nothing_when_it_is_ended(capfd: pytest.CaptureFixture[str]) -> None:
    with open_pool(1, seconds=0.5) as pool:
        assert isinstance(pool.submit(sleep, 3).exception(60), JobLostError)
    assert capfd.readouterr() == ("", "")


def test_who_asks_in_turn_is_told_of_a_lost_job_and_goes_on() -> None:
    with open_pool(1, seconds=1) as pool:
        jobs = [Job(str(number), spin, number) for number in range(5)]
        told: list[str] = []

        def note(label: str, reason: str) -> int:
            told.append(f"{label}: {reason}")
            return -1

        results = [result for _, result in run_in_turn(pool, jobs, on_loss=note)]
    assert results == [0, 1, 2, -1, 4]
    assert told == ["3: it took more than 1 seconds"]


def test_without_anybody_to_tell_the_run_stops_with_a_cure() -> None:
    with open_pool(1, seconds=1) as pool, pytest.raises(BuilderError, match="took more than"):
        list(run_in_turn(pool, [Job("3", spin, 3)]))


def test_a_job_that_went_well_has_no_loss() -> None:
    with open_pool(1) as pool:
        assert find_loss(pool.submit(os.getpid)) == ""


def run_but_one(faces: tuple[CardFace, ...]) -> tuple[CardRecord, ...]:
    """Print cards, but go on for ever over one lesson."""
    spin(3 if any(face.lesson.id == "plain-count" for face in faces) else 0)
    return run_batch(faces)


class Hung(Executor):
    """A pool in which one lesson's card never comes to an end."""

    def __init__(self, pool: Executor) -> None:
        self.pool = pool

    def submit(self, fn, /, *args, **kwargs):
        return self.pool.submit(run_but_one if fn is run_batch else fn, *args, **kwargs)


def test_a_card_without_end_is_a_finding_and_no_other_card_is_lost(tmp_path: Path) -> None:
    course = read_course(SMALL_COURSE).course
    assert isinstance(course, Course)
    order = CardOrder(papers=("a6",))
    with open_pool(2, seconds=2) as pool:
        make = partial(make_cards, course, tmp_path / "cards", order)
        faults = make(pool=Hung(pool), shelf=ContentStore(tmp_path / "cache"))
    (told,) = map(str, faults)
    assert told == (
        "content/lessons/count/plain-count.md:2:8: X104 made-too-long: its A6 card was not made: "
        "it took more than 2 seconds; shorten the lesson, or leave unusual signs out of it."
    )
    made = {path.stem for path in (tmp_path / "cards").rglob("*.pdf")}
    assert made == set(course.by_id) - {"plain-count"}


class Losing(Executor):
    """Runs jobs here, and loses those whose words name one thing, as a pool tells it."""

    def __init__(self, run: str, named: str) -> None:
        self.run, self.named = run, named

    def submit(self, fn, /, *args, **kwargs):
        done: Future[object] = Future()
        if fn.__name__ == self.run and self.named in repr(args):
            done.set_exception(JobLostError("it took more than 60 seconds"))
        else:
            done.set_result(fn(*args, **kwargs))
        return done


@pytest.mark.parametrize("run", ["run_contents", "run_packs"])
def test_a_pack_without_end_is_a_finding_and_no_other_pack_is_lost(
    tmp_path: Path, run: str
) -> None:
    course = read_course(SMALL_COURSE).course
    assert isinstance(course, Course)
    make = partial(make_cards, course, tmp_path / "cards", CardOrder(("a6",), packs=("a6",)))
    faults = make(pool=Losing(run, "Pack(name='count'"), shelf=ContentStore(tmp_path / "cache"))
    assert [str(each) for each in faults] == [
        'content/course.yml:10:24: X104 made-too-long: the A6 pack "count" was not made: '
        "it took more than 60 seconds; see that enough memory is free."
    ]
    made = {path.stem for path in (tmp_path / "cards/packs").iterdir()}
    assert made == {"breath", "whole-course"}


def test_a_shared_sheet_of_numbers_that_is_lost_takes_only_its_packs_along(tmp_path: Path) -> None:
    course = read_course(SMALL_COURSE).course
    assert isinstance(course, Course)
    make = partial(make_cards, course, tmp_path / "cards", CardOrder(("a6",), packs=("a6",)))
    faults = make(pool=Losing("run_folios", ""), shelf=ContentStore(tmp_path / "cache"))
    assert [fault.rule.id for fault in faults] == ["X104"] * 3
    assert {path.stem for path in (tmp_path / "cards").iterdir()} == set(course.by_id)


def test_a_picture_without_end_is_a_finding_and_no_other_picture_is_lost(tmp_path: Path) -> None:
    course = read_course(SMALL_COURSE).course
    assert isinstance(course, Course)
    posters = dict(list(list_posters(course, Outliner(course)).items())[:4])
    pool = Losing("_paint", course.lessons[0].title)
    painted = paint_all(posters, pool=pool, shelf=ContentStore(tmp_path))
    assert [str(each) for each in painted.faults] == [
        "content/lessons/breath/hand-on-belly.md:2:8: X104 made-too-long: its picture for sharing "
        "was not made: it took more than 60 seconds; shorten the title, or see that enough memory "
        "is free."
    ]
    assert len(painted.pictures) == 3
