"""What the command line of the way in is taken to mean."""

from pathlib import Path

import pytest

from builder.machine.environment import Environment, Purpose
from builder.machine.words import Request, errands, read_request


@pytest.mark.parametrize(
    ("line", "request_"),
    [
        ("demo", Request("demo")),
        ("--dry-run demo", Request("demo", dry_run=True)),
        ("demo --dry-run", Request("demo", dry_run=True)),
        ("--set-up-only", Request("", set_up_only=True)),
        ("test --set-up-only -k tempo", Request("test", ("-k", "tempo"), set_up_only=True)),
        ("new my-course", Request("new", ("my-course",))),
        ("check --strict", Request("check", ("--strict",))),
        # After any other word, our own options are that word's business.
        ("publish --dry-run", Request("publish", ("--dry-run",))),
        ("--dry-run --set-up-only serve", Request("serve", dry_run=True, set_up_only=True)),
    ],
)
def test_reading_the_command_line(line: str, request_: Request) -> None:
    assert read_request(line.split()) == request_


def test_only_the_tests_need_the_test_tools() -> None:
    assert Request("test").purpose is Purpose.TEST
    assert {Request(word).purpose for word in ("demo", "check", "new")} == {Purpose.RUN}


def test_the_tests_are_style_layout_types_and_pytest_last(tmp_path: Path) -> None:
    steps = errands(Environment(tmp_path), Request("test", ("-k", "tempo")))
    assert [step.command[2] for step in steps] == ["ruff", "ruff", "mypy", "pytest"]
    assert steps[-1].command[-2:] == ("-k", "tempo")


def test_setting_up_only_runs_nothing(tmp_path: Path) -> None:
    assert errands(Environment(tmp_path), Request("demo", set_up_only=True)) == ()


def test_the_demo_makes_the_site_and_all_that_is_the_coachs(tmp_path: Path) -> None:
    (tmp_path / "demo_program/classes").mkdir(parents=True)
    for name in ("2026-11-24-mixed", "2026-11-26-small"):
        (tmp_path / f"demo_program/classes/{name}.yml").touch()
    steps = errands(Environment(tmp_path), Request("demo"))
    words = [step.command[1:3] for step in steps]
    classes = tmp_path / "demo_program/classes"
    assert words[:3] == [
        ("build",),
        ("class", str(classes / "2026-11-24-mixed.yml")),
        ("class", str(classes / "2026-11-26-small.yml")),
    ]
    assert words[3:11] == [("sheet", f"C{number}") for number in range(1, 9)]
    assert words[11:] == [("group", "--on")]


def test_without_the_demo_program_only_the_site_is_built(tmp_path: Path) -> None:
    steps = errands(Environment(tmp_path), Request("demo"))
    assert [step.command[1] for step in steps] == ["build"]
