"""Work on things of strangers: what takes too long or too much is lost, and nothing else."""

import faulthandler
import os
import sys
import time

import pytest

from builder.work.bounded_share import share_bounded

pytestmark = pytest.mark.skipif(sys.platform != "linux", reason="bounds need copies of a process")


def test_what_is_made_comes_back_in_order() -> None:
    assert share_bounded(str, range(40)) == [str(number) for number in range(40)]
    assert share_bounded(str, []) == []


def test_a_thing_that_takes_for_ever_is_lost_alone() -> None:
    def work(number: int) -> int:
        while number == 3:
            pass
        return number

    assert share_bounded(work, range(6), seconds=0.2) == [0, 1, 2, None, 4, 5]


def test_a_thing_that_waits_for_ever_is_lost_alone() -> None:
    def work(number: int) -> int:
        while number == 1:
            time.sleep(60)
        return number

    assert share_bounded(work, range(3), seconds=0.1) == [0, None, 2]


def test_answers_at_the_very_end_of_their_time_stop_nothing() -> None:
    def work(number: int) -> int:
        time.sleep(0.05)
        return number

    made = share_bounded(work, range(12), seconds=0.01)  # the clock ends copies at 0.05
    assert {each for each in made if each is not None} <= set(range(12))
    assert len(made) == 12


def test_a_process_that_is_watched_itself_can_watch_copies() -> None:
    """What watches the clock of a process has a thread, and a copy hasn't."""
    faulthandler.dump_traceback_later(60, exit=True)
    try:
        assert share_bounded(str, range(3), seconds=5) == ["0", "1", "2"]
    finally:
        faulthandler.cancel_dump_traceback_later()


def test_a_thing_whose_copy_is_ended_is_lost_alone() -> None:
    here = os.getpid()

    def work(number: int) -> int:
        if number == 1:
            os.kill(os.getpid(), 9)
        return os.getpid()

    first, second, third = share_bounded(work, range(3))
    assert second is None
    assert None not in {first, third}
    assert here not in {first, third}


def test_memory_is_refused_in_time() -> None:
    def work(number: int) -> str:
        try:
            return str(len(bytearray(number * 10**9)))
        except MemoryError:
            return "refused"

    assert share_bounded(work, [8, 0]) == ["refused", "0"]


def test_after_some_losses_nothing_more_is_tried() -> None:
    def work(number: int) -> int:
        if number % 2 == 0:
            os._exit(1)
        return number

    made = share_bounded(work, range(100))
    assert made[0] is None
    assert set(made[20:]) == {None}
