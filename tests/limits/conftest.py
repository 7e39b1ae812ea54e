"""Tests of limits come to an end, whatever the code under test does."""

import signal
from collections.abc import Iterator
from types import FrameType

import pytest

HANG_SECONDS = 120
"""What no case takes, however busy the machine; a case that hangs fails and the rest goes on."""


@pytest.fixture(autouse=True)
def end_in_time() -> Iterator[None]:
    def fail(_number: int, _frame: FrameType | None) -> None:
        raise TimeoutError("this hangs")

    before = signal.signal(signal.SIGALRM, fail)
    signal.alarm(HANG_SECONDS)
    yield
    signal.alarm(0)
    signal.signal(signal.SIGALRM, before)
