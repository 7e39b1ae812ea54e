"""Copies take part in work, and nobody can tell from what comes back."""

import os
import signal
import sys
from pathlib import Path
from threading import Event, Thread

import pytest

from builder.work.share import FEWEST, can_copy, share

HERE = os.getpid()
MANY = range(5000)
ONLY_LINUX = pytest.mark.skipif(sys.platform != "linux", reason="copies are made on Linux only")


def test_results_are_in_the_order_of_the_things() -> None:
    assert share(lambda number: number * number, MANY) == [number * number for number in MANY]


def test_nothing_comes_of_nothing() -> None:
    assert share(str, []) == []


@ONLY_LINUX
def test_a_copy_makes_part_of_it(two_cores: None) -> None:
    makers = share(lambda _: (os.getpid(), sum(range(9999)))[0], MANY)
    assert len(set(makers)) > 1
    assert HERE in makers


def test_few_things_are_made_here() -> None:
    assert set(share(lambda _: os.getpid(), range(FEWEST - 1))) == {HERE}


def test_an_error_in_a_copy_is_raised_here() -> None:
    def fail(number: int) -> int:
        if number > FEWEST:
            raise ValueError(str(number))
        return number

    with pytest.raises(ValueError, match=r"^\d+$"):
        share(fail, MANY)


def test_what_a_killed_copy_had_is_made_here() -> None:
    def work(number: int) -> int:
        if os.getpid() != HERE:
            os.kill(os.getpid(), signal.SIGKILL)
        return -number

    assert share(work, MANY) == [-number for number in MANY]


def test_what_cant_be_handed_back_is_made_here() -> None:
    made = share(lambda number: lambda: number, MANY)
    assert [give() for give in made] == list(MANY)


def test_a_copy_is_not_heard(capfd: pytest.CaptureFixture[str]) -> None:
    def say(number: int) -> int:
        if os.getpid() != HERE:
            os.write(2, b"heard")
            os.write(1, b"heard")
        return number

    share(say, MANY)
    assert capfd.readouterr() == ("", "")


def test_a_copy_makes_no_copies() -> None:
    def work(number: int) -> list[int]:
        return share(abs, range(number, number + FEWEST))

    assert share(work, MANY[:40]) == [list(range(n, n + FEWEST)) for n in range(40)]


def test_no_copy_stays(tmp_path: Path) -> None:
    def note(number: int) -> int:
        (tmp_path / str(os.getpid())).touch()
        return number

    share(note, MANY)
    others = {int(path.name) for path in tmp_path.iterdir()} - {HERE}
    for process in others:
        with pytest.raises(ProcessLookupError):
            os.kill(process, 0)


def test_a_process_with_work_in_another_thread_is_not_copied() -> None:
    is_over = Event()
    worker = Thread(target=is_over.wait)
    worker.start()
    try:
        assert not can_copy()
        assert set(share(lambda _: os.getpid(), MANY)) == {HERE}
    finally:
        is_over.set()
        worker.join()


@pytest.fixture
def two_cores() -> None:
    """Skip where a machine has one core."""
    if len(os.sched_getaffinity(0)) < 2:
        pytest.skip("one core")
