"""The files that let a host build and publish a new course, read as the host would."""

import re
import shlex
import subprocess
from pathlib import Path
from typing import Any

import pytest
import typer
from packaging.requirements import Requirement

from builder.cli.app import WORDS, make_app
from builder.cli.publish_command import WORKFLOWS
from builder.machine.lock import read_own_requirements
from builder.reading.yaml_tree import read_yaml
from builder.starting.project_files import make_project_files
from builder.starting.wishes import Wishes

GITHUB, GITLAB = WORKFLOWS.values()
ORDER = [
    "python -m pip install --require-hashes -r requirements.lock",
    "python -m pip install --no-deps --no-build-isolation -r requirements.txt",
    "tempoleaf check --strict",
    "tempoleaf build --strict",
    "tempoleaf publish --check",
]
"""What each host does, in this order."""
COMMANDS = typer.main.get_command(make_app(WORDS))


@pytest.fixture(scope="module")
def files() -> dict[str, str]:
    made = make_project_files(Wishes("Harbour"), "Harbour")
    return {path: text.decode() for path, text in made.items()}


@pytest.fixture(scope="module")
def github(files: dict[str, str]) -> dict[str, Any]:
    return read(files, GITHUB)


@pytest.fixture(scope="module")
def gitlab(files: dict[str, str]) -> dict[str, Any]:
    return read(files, GITLAB)


def read(files: dict[str, str], path: str) -> dict[str, Any]:
    """Read a file by the rules of YAML 1.2, as these hosts do: "on" is a word."""
    tree, findings = read_yaml(files[path], path)
    assert findings == []
    assert tree is not None
    return dict(tree.values)


def list_steps(github: dict[str, Any]) -> list[dict[str, Any]]:
    return [step for job in github["jobs"].values() for step in job["steps"]]


def list_lines(github: dict[str, Any], gitlab: dict[str, Any]) -> dict[str, list[str]]:
    """Return each host's own commands in their order."""
    runs = [step["run"] for step in github["jobs"]["build"]["steps"] if "run" in step]
    pages = gitlab["pages"]
    return {
        GITHUB: [line.strip() for run in runs for line in run.splitlines()],
        GITLAB: [*pages["before_script"], *pages["script"]],
    }


def parse(line: str) -> typer.Context:
    """Read a command line by the tool's own commands; a slip raises an exception."""
    _, word, *rest = shlex.split(line)
    assert isinstance(COMMANDS, typer.core.TyperGroup)
    return COMMANDS.commands[word].make_context(word, rest)


def test_a_slip_in_a_command_would_be_found() -> None:
    with pytest.raises(KeyError):
        parse("tempoleaf publsh")
    for line in ("tempoleaf publish --chek", "tempoleaf check --format xml"):
        with pytest.raises(typer.exceptions.TyperException):
            parse(line)


@pytest.mark.parametrize("path", [GITHUB, GITLAB, "README.md"])
def test_every_command_that_a_file_names_can_be_run(files: dict[str, str], path: str) -> None:
    text = "\n".join(line for line in files[path].splitlines() if not line.lstrip().startswith("#"))
    lines = re.findall(r"(?:`|- |run: )(tempoleaf [a-z][^`\n>]*)", text)
    lines = [line for line in lines if "--help" not in line]
    assert len(lines) >= 3
    for line in lines:
        parse(line)


@pytest.mark.parametrize("host", [GITHUB, GITLAB])
def test_a_host_checks_builds_and_follows_links_before_it_publishes(
    github: dict[str, Any], gitlab: dict[str, Any], host: str
) -> None:
    lines = list_lines(github, gitlab)[host]
    at = [next(i for i, line in enumerate(lines) if line.startswith(each)) for each in ORDER]
    assert at == sorted(at)


def test_both_hosts_take_what_a_build_writes(
    github: dict[str, Any], gitlab: dict[str, Any]
) -> None:
    site = str(parse("tempoleaf publish --check").params["site"])
    assert parse("tempoleaf build --strict").params["site"] is None  # site/ in the project then
    upload = github["jobs"]["build"]["steps"][-1]
    assert upload["uses"].startswith("actions/upload-pages-artifact@")
    assert upload["with"] == {"path": site}
    *_, last = gitlab["pages"]["script"]
    assert last == f"mv {site} public"
    assert gitlab["pages"]["artifacts"] == {"paths": ["public"]}


def test_each_job_may_do_what_it_needs_and_no_more(github: dict[str, Any]) -> None:
    assert github["permissions"] == {}
    assert {name: job["permissions"] for name, job in github["jobs"].items()} == {
        "build": {"contents": "read"},
        "publish": {"pages": "write", "id-token": "write"},
    }
    assert github["jobs"]["publish"]["needs"] == "build"
    assert github["jobs"]["publish"]["environment"]["name"] == "github-pages"
    checkout = github["jobs"]["build"]["steps"][0]
    assert checkout["with"] == {"persist-credentials": False}


def test_only_the_main_branch_is_published(github: dict[str, Any], gitlab: dict[str, Any]) -> None:
    assert github["on"] == {"push": {"branches": ["main"]}, "workflow_dispatch": None}
    assert gitlab["pages"]["rules"] == [{"if": "$CI_COMMIT_BRANCH == $CI_DEFAULT_BRANCH"}]
    assert set(gitlab) == {"pages"}


def test_steps_of_others_are_fixed_to_one_commit_each(files: dict[str, str]) -> None:
    used = re.findall(r"uses: (.*)", files[GITHUB])
    assert len(used) == 4
    for step in used:
        assert re.fullmatch(r"actions/[a-z-]+@[0-9a-f]{40} # v\d+\.\d+\.\d+", step), step


def test_no_command_holds_a_word_from_outside(
    files: dict[str, str], github: dict[str, Any]
) -> None:
    assert not any("${{" in step.get("run", "") for step in list_steps(github))
    for path in (GITHUB, GITLAB):
        assert not re.search(r"secrets\.|TOKEN|PASSWORD|curl|wget", files[path]), path


@pytest.mark.parametrize("path", [GITHUB, GITLAB])
def test_every_file_that_a_host_installs_from_is_there(files: dict[str, str], path: str) -> None:
    named = set(re.findall(r"-r (\S+)", files[path]))
    assert named == {"requirements.lock", "requirements.txt"}
    assert named <= set(files)


def test_what_the_tool_stands_on_is_locked_with_hashes(files: dict[str, str]) -> None:
    entries = re.split(r"\n(?=\S)", files["requirements.lock"].strip())
    locked: dict[str, str] = {}
    for entry in entries:
        requirement = Requirement(entry.split(" \\")[0])
        locked[requirement.name] = next(iter(requirement.specifier)).version
        assert "--hash=sha256:" in entry, requirement.name
    wanted = [each for each in read_own_requirements() if each.name != "hatchling"]
    for each in wanted:
        assert each.specifier.contains(locked[each.name]), each.name
    assert "hatchling" in locked  # builds the tool where its source is fetched


@pytest.mark.parametrize("host", [GITHUB, GITLAB])
def test_a_host_stops_where_nobody_wrote_where_the_tool_comes_from(
    github: dict[str, Any], gitlab: dict[str, Any], host: str, tmp_path: Path
) -> None:
    runs = [step["run"] for step in list_steps(github) if "grep" in step.get("run", "")]
    guard = {GITHUB: runs, GITLAB: gitlab["pages"]["before_script"]}[host][0]
    source = tmp_path / "requirements.txt"
    for text, code in (("# a comment\n\n", 1), ("# a\n./tool/x.whl\n", 0)):
        source.write_text(text, "utf-8")
        done = subprocess.run(["bash", "-ec", guard], cwd=tmp_path, check=False)
        assert done.returncode == code
