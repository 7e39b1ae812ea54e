"""README and DEVELOPERS say what is so: every path, command and rule that they name exists."""

import re
from pathlib import Path

import pytest

from builder import rules
from builder.cli.app import WORDS
from builder.drawing.figure.pair import draw_pair
from builder.reading.course_folder import read_course
from tests.conftest import SMALL_COURSE, WriteCourse

ROOT = Path(__file__).parents[1]
DOCS = ("README.md", "DEVELOPERS.md")
SCALE = "SCALE.md"
HOSTS = "HOSTS.md"
MADE = {"site/", "coach/", ".cache/", ".venv"}
"""Folders that the tool makes."""
_CODE = re.compile(r"`([^`\n]+)`")
_PATH = re.compile(r"[.\w-]+(/[.\w-]+)*/?")


def read(name: str) -> str:
    return (ROOT / name).read_text(encoding="utf-8")


def list_code(name: str) -> list[str]:
    return _CODE.findall(re.sub(r"```.*?```", "", read(name), flags=re.DOTALL))


def exists(path: str) -> bool:
    """Tell whether a path is there, named from the project's folder or by its tail."""
    if path in MADE or (ROOT / path).exists() or (ROOT / "builder" / path).exists():
        return True
    return "/" not in path and any(ROOT.glob(f"builder/**/{path}"))


@pytest.mark.parametrize("name", [*DOCS, SCALE, HOSTS])
def test_every_path_in_the_docs_exists(name: str) -> None:
    paths = [
        code
        for code in list_code(name)
        if _PATH.fullmatch(code) and ("/" in code or re.search(r"\.(py|md|yml|toml|lock)$", code))
    ]
    assert len(paths) > (5 if name in DOCS else 1)
    own = [path for path in paths if path != "course.yml"]
    assert [path for path in own if not exists(path)] == []


@pytest.mark.parametrize("name", [*DOCS, SCALE, HOSTS])
def test_every_command_in_the_docs_is_a_command(name: str) -> None:
    text = read(name)
    words = set(re.findall(r"`tempoleaf ([a-z]+)", text))
    assert words
    assert words <= set(WORDS)


def test_the_readme_names_every_command() -> None:
    assert set(re.findall(r"\| `tempoleaf ([a-z]+)", read("README.md"))) == set(WORDS)


@pytest.mark.parametrize("name", DOCS)
def test_every_rule_in_the_docs_is_a_rule(name: str) -> None:
    named = set(re.findall(r"\b[HODTSNWPFCLVE]1\d\d\b", read(name)))
    assert named
    assert named <= set(rules.RULES_BY_ID)


def test_the_readme_opens_with_the_job_in_one_paragraph() -> None:
    title, job, *_ = read("README.md").split("\n\n")
    assert title == "# tempoleaf"
    assert job.count("\n") == 0
    assert "coach" in job


@pytest.mark.parametrize("name", [*DOCS, SCALE, HOSTS])
def test_pictures_and_links_lead_somewhere(name: str) -> None:
    targets = re.findall(r"\]\(([^)#]+)\)", read(name))
    assert [target for target in targets if not (ROOT / target).exists()] == []


def test_the_plan_for_a_million_sheets_adds_up() -> None:
    blocks = re.findall(r"```text\n(.*?)```", read(SCALE), re.DOTALL)
    sums = re.findall(r": +([\d .*/+()]+) = ([\d.]+)", "".join(blocks))
    assert len(sums) == len("".join(blocks).splitlines())
    for worked_out, said in sums:
        digits = len(said.partition(".")[2])
        exact = eval(worked_out)  # noqa: S307  # nothing but figures and signs
        assert exact == pytest.approx(float(said), abs=0.51 * 10**-digits), worked_out


def test_the_message_in_the_readme_is_what_the_tool_says(write_course) -> None:
    shown = re.search(r"box\.md:7:8: (H107 [^\n]+)", read("README.md"))
    path = "content/lessons/count/short-hold.md"
    root = write_course()
    text = (root / path).read_text(encoding="utf-8").replace("3-3-3-3", "4:4:4:4")
    (root / path).write_text(text, encoding="utf-8")
    (finding,) = read_course(root).findings
    assert shown
    assert str(finding) == f"{path}:7:8: {shown[1]}"


def test_the_figure_that_the_readme_shows_can_be_drawn(write_course: WriteCourse) -> None:
    shown = re.search(r"```yaml\n(figure:\n.*?)```", read("README.md"), re.DOTALL)
    assert shown is not None
    path = "content/lessons/breath/hand-on-belly.md"
    lesson = (SMALL_COURSE / path).read_text(encoding="utf-8")
    drawn = lesson.replace("reviewed:", f"{shown[1]}reviewed:", 1)
    drawn = drawn.replace("{mat: 1}", "{mat: 1, ball: 1}", 1)
    reading = read_course(write_course({path: drawn}))
    assert [str(finding) for finding in reading.findings] == []
    assert reading.course is not None
    figure = reading.course.by_id["hand-on-belly"].figure
    assert figure is not None
    assert draw_pair(figure, "pair").svg.count('class="move"') >= 3
