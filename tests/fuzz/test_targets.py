"""Each reader gives values and findings, whatever it is given; once-found cases stay mended."""

import faulthandler
import sys
from collections.abc import Iterator

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from tests.fuzz.changes import cook
from tests.fuzz.desk import CASES
from tests.fuzz.judging import require_sound
from tests.fuzz.targets import TARGETS
from tests.trying import count_tries

HANG_SECONDS = 300
"""Nothing that a test here does takes a hundredth of it on any machine (ours)."""
FOUND = sorted(path.relative_to(CASES).as_posix() for path in CASES.glob("*/*"))


@pytest.fixture(autouse=True)
def hang_guard() -> Iterator[None]:
    """End the process with a traceback where one test hangs, even inside a library."""
    faulthandler.dump_traceback_later(HANG_SECONDS, exit=True, file=sys.__stderr__ or sys.stderr)
    yield
    faulthandler.cancel_dump_traceback_later()


@pytest.mark.parametrize("name", TARGETS)
def test_the_files_to_begin_with_are_read(name: str) -> None:
    target = TARGETS[name]
    for data in target.seeds()[:5]:
        require_sound(target, data)


@pytest.mark.parametrize("case", FOUND)
def test_what_was_found_stays_mended(case: str) -> None:
    require_sound(TARGETS[case.partition("/")[0]], (CASES / case).read_bytes())


@pytest.mark.parametrize("name", TARGETS)
def test_changed_files_are_read_or_refused(name: str) -> None:
    target = TARGETS[name]
    tries = count_tries(target.suite_tries, 100 * target.suite_tries)

    @settings(
        max_examples=tries, derandomize=True, database=None, suppress_health_check=list(HealthCheck)
    )
    @given(
        first=st.integers(0, 999),
        numbers=st.lists(st.integers(0, 2**32 - 1), min_size=1, max_size=4),
    )
    def look(first: int, numbers: list[int]) -> None:
        require_sound(target, cook(target, target.seeds(), first, numbers))

    look()
