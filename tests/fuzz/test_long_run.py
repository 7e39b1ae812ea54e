"""The long run finds what fails, hangs or dies, and keeps the case."""

import signal
from pathlib import Path

import pytest

from builder import rules
from builder.errors import BuilderError
from builder.findings import Place
from tests.fuzz.__main__ import main
from tests.fuzz.changes import cook
from tests.fuzz.judging import FuzzError, judge, require_sound
from tests.fuzz.kinds import Answer, Target
from tests.fuzz.long_run import Order, run_target
from tests.fuzz.targets import TARGETS
from tests.fuzz.trial import find_fault, shrink
from tests.fuzz.worker import try_target

FINDING = rules.HEADER_UNREADABLE.at(Place("a", 4), "a fact", "a cure")


def fail_at_sign(data: bytes) -> Answer:
    if b"!" in data:
        raise LookupError("a sign")
    return Answer(data)


def test_a_fault_is_kept_once_with_the_least_that_shows_it(tmp_path: Path) -> None:
    target = Target("toy", fail_at_sign, lambda: (b"calm breath", b"loud! breath!"))
    sums = try_target(target, tmp_path, 0.3, 0)
    ((name, told),) = sums.faults.items()
    assert "LookupError: a sign" in told
    assert (tmp_path / name).read_bytes() == b"!"
    assert sums.tries > 2
    assert "accepted" in judge(target, b"calm").reached


@pytest.mark.parametrize(
    ("answer", "fault"),
    [
        (Answer(1, (FINDING,), 3), "beyond the last of 3 lines"),
        (Answer(1, again=lambda: 2, expected=1), "written and read again"),
    ],
)
def test_an_unsound_answer_is_a_fault(answer: Answer, fault: str) -> None:
    with pytest.raises(FuzzError, match=fault):
        require_sound(Target("toy", lambda _: answer, tuple), b"")


def test_another_answer_the_second_time_is_a_fault() -> None:
    answers = iter((Answer(1), Answer(2)))
    with pytest.raises(FuzzError, match="another answer"):
        require_sound(Target("toy", lambda _: next(answers), tuple), b"")


def test_a_run_that_stops_with_a_cure_is_no_fault() -> None:
    def stop(data: bytes) -> Answer:
        raise BuilderError("a sentence", "a cure")

    assert not isinstance(find_fault(Target("toy", stop, tuple), b""), tuple)


@pytest.mark.parametrize(("name", "told"), [("hang", "hung"), ("die", f"code {-signal.SIGKILL}")])
def test_what_hangs_or_dies_is_kept(name: str, told: str, tmp_path: Path) -> None:
    order = Order(tmp_path, 0.1, module="tests.fuzz.bad_worker", hang_seconds=1, most_ends=1)
    outcome = run_target(name, order)
    assert outcome.ends[0] == f"{name}-end-0 ({told})"
    assert not outcome.is_sound
    assert (tmp_path / name / f"{name}-end-0").read_bytes() == b"what was tried"


def test_the_command_runs_a_target_and_counts(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["--minutes", "0.01", "--folder", str(tmp_path), "tempo"]) == 0
    assert "tempo " in capsys.readouterr().out
    with pytest.raises(SystemExit):
        main(["no-such-target"])


def test_changes_are_the_same_each_time_and_differ_from_each_other() -> None:
    for name in ("lesson", "xlsx"):
        target = TARGETS[name]
        numbers = [31, 4_059_231_220, 7]
        seeds = target.seeds()
        assert cook(target, seeds, 0, numbers) == cook(target, seeds, 0, numbers)
        made = {cook(target, seeds, 0, [number]) for number in range(60)}
        assert len(made) > 40


def test_shrinking_keeps_what_fails() -> None:
    assert shrink(b"abcXdefY", lambda data: b"X" in data and b"Y" in data) == b"XY"
