"""The stamp: when a set-up counts as whole, and when it has to be made again."""

from pathlib import Path

import pytest

from builder.machine.environment import Environment, Purpose


@pytest.fixture
def environment(tmp_path: Path) -> Environment:
    """Make a checkout with lock files, and the programs of an environment."""
    made = Environment(tmp_path / "project")
    for file in (
        *made.locks(Purpose.TEST),
        made.root / "pyproject.toml",
        made.checker / "package-lock.json",
        made.python,
        made.command,
    ):
        file.parent.mkdir(parents=True, exist_ok=True)
        file.write_text(f"{file.name}\n", encoding="utf-8")
    return made


def test_programs_without_a_stamp_are_an_interrupted_set_up(environment: Environment) -> None:
    assert not environment.is_mine()
    assert not environment.is_ready(Purpose.RUN)


def test_a_set_up_for_running_has_no_test_tools(environment: Environment) -> None:
    environment.write_stamp(Purpose.RUN)
    assert environment.is_ready(Purpose.RUN)
    assert not environment.is_ready(Purpose.TEST)


def test_a_set_up_for_tests_can_run_too(environment: Environment) -> None:
    environment.write_stamp(Purpose.TEST)
    assert environment.is_ready(Purpose.RUN)
    assert environment.is_ready(Purpose.TEST)


def test_another_type_checker_calls_for_a_new_set_up_of_tests_only(
    environment: Environment,
) -> None:
    environment.write_stamp(Purpose.TEST)
    (environment.checker / "package-lock.json").write_text("changed\n", encoding="utf-8")
    assert environment.is_ready(Purpose.RUN)
    assert not environment.is_ready(Purpose.TEST)


@pytest.mark.parametrize("name", ["requirements.lock", "pyproject.toml"])
def test_a_changed_file_calls_for_a_new_set_up(environment: Environment, name: str) -> None:
    environment.write_stamp(Purpose.TEST)
    (environment.root / name).write_text("changed\n", encoding="utf-8")
    assert environment.is_mine()
    assert not environment.is_ready(Purpose.RUN)


def test_changed_test_tools_leave_running_as_it_was(environment: Environment) -> None:
    environment.write_stamp(Purpose.TEST)
    (environment.root / "tests" / "requirements.lock").write_text("changed\n", encoding="utf-8")
    assert environment.is_ready(Purpose.RUN)
    assert not environment.is_ready(Purpose.TEST)


def test_a_moved_folder_needs_a_new_environment(environment: Environment) -> None:
    environment.write_stamp(Purpose.RUN)
    moved = environment.root.rename(environment.root.with_name("moved"))
    assert not Environment(moved).is_mine()


def test_a_broken_stamp_is_gone_and_does_no_harm_twice(environment: Environment) -> None:
    environment.write_stamp(Purpose.RUN)
    environment.break_stamp()
    environment.break_stamp()
    assert not environment.is_mine()


@pytest.mark.parametrize("text", ["", "{", "[]", "\udc80", '{"place": 3}'])
def test_an_unreadable_stamp_is_no_stamp(environment: Environment, text: str) -> None:
    environment.stamp.write_text(text, encoding="utf-8", errors="surrogateescape")
    assert not environment.is_mine()


def test_a_missing_program_calls_for_a_new_set_up(environment: Environment) -> None:
    environment.write_stamp(Purpose.RUN)
    environment.python.unlink()
    assert not environment.is_mine()
