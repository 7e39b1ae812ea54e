"""`tempoleaf class` as coaches run it, on a copy of the demo program with the starter course."""

import shutil
from pathlib import Path

import pytest
from click.testing import Result
from typer.testing import CliRunner

from builder.cli.app import make_app
from builder.errors import BuilderError
from tests.planning.starter import ROOT

CLASS = "classes/2026-11-26-small.yml"
PLAN = "plans/2026-11-26-small.yml"


@pytest.fixture
def project(tmp_path: Path) -> Path:
    for name in ("content", "demo_program"):
        shutil.copytree(ROOT / name, tmp_path / name)
    shutil.rmtree(tmp_path / "demo_program/plans", ignore_errors=True)
    return tmp_path


def run(project: Path, *words: str, file: str = CLASS) -> Result:
    path = str(project / "demo_program" / file)
    command = ["class", path, *words, "--project", str(project)]
    result = CliRunner().invoke(make_app(["class"]), command)
    if isinstance(result.exception, BuilderError):
        raise result.exception
    return result


def plan_of(project: Path) -> Path:
    return project / "demo_program" / PLAN


def edit(path: Path, old: str, new: str, times: int = 1) -> None:
    text = path.read_text(encoding="utf-8")
    assert old in text
    path.write_text(text.replace(old, new, times), encoding="utf-8")


def test_a_class_is_planned_printed_and_written(project: Path) -> None:
    result = run(project, "--quiet")
    assert (result.exit_code, result.stderr) == (0, "")
    assert result.stdout.startswith("Thursday 26 November 2026, small: 4 people, 45 minutes")
    assert "Proven best" in result.stdout
    assert "It clears nobody" in result.stdout
    text = plan_of(project).read_text(encoding="utf-8")
    assert text.startswith("# The plan of the class 2026-11-26-small.")
    assert text.count("- count: ") == result.stdout.count("  Block ")


def test_an_untouched_plan_is_sound_and_stays_as_it_is(project: Path) -> None:
    run(project)
    before = plan_of(project).read_bytes()
    result = run(project)
    assert result.exit_code == 0
    assert "The plan was read from its file, and keeps every rule." in result.stdout
    assert "Proven" not in result.stdout
    assert plan_of(project).read_bytes() == before


def test_a_sound_change_by_hand_is_taken(project: Path) -> None:
    run(project)
    edit(plan_of(project), "C6: roll", "C6: even-count")
    result = run(project)
    assert result.exit_code == 0
    assert "C6 Naledi Tshwarang: Even count" in result.stdout
    assert "Dead bug roll" not in result.stdout


@pytest.mark.parametrize(
    ("old", "new", "sentence"),
    [
        ("C6: roll", "C6: band-roll",
         "C6 may not do Band roll today: not ready yet in Dead bug roll"),
        ("C6: roll", "C6: box",
         "Box breathing of C6 has another count"),
        ("C5: {lesson: side-lying-breath, look: true}", "C5: side-lying-breath",
         "Side-lying breath is new to C5 and needs a close look: set look: true"),
        ("C7: even-count", "C7: ball-on-belly",
         "2 × soft ball: 1 is there"),
    ],
)  # fmt: skip
def test_a_change_that_breaks_a_rule_is_told(
    project: Path, old: str, new: str, sentence: str
) -> None:
    run(project)
    edit(plan_of(project), old, new)
    changed = plan_of(project).read_bytes()
    result = run(project)
    assert result.exit_code == 1
    assert "This plan can't be taught as it stands" in result.stdout
    assert sentence in result.stdout
    assert plan_of(project).read_bytes() == changed


def test_who_stays_away_leaves_the_blocks_as_they_are(project: Path) -> None:
    run(project)
    frames = [line for line in plan_of(project).read_text().splitlines() if "count: " in line]
    result = run(project, "--without", "C7")
    assert result.exit_code == 0
    assert "The blocks stay; only who does what has changed." in result.stdout
    assert "C7" not in result.stdout
    text = plan_of(project).read_text()
    assert [line for line in text.splitlines() if "count: " in line] == frames
    assert "without: [C7]" in text
    assert run(project).exit_code == 0


def test_who_comes_as_well_is_planned_in(project: Path) -> None:
    run(project)
    result = run(project, "--add", "C8")
    assert result.exit_code == 0
    assert "C8 Remedios Altoventa" in result.stdout
    assert "added: [C8]" in plan_of(project).read_text()
    again = run(project)
    assert again.exit_code == 0
    assert "C8 Remedios Altoventa" in again.stdout


@pytest.mark.parametrize(
    ("words", "message"),
    [
        (("--add", "C9"), 'nobody on record has the id "C9"; use one of C1, C2'),
        (("--without", "C1"), '"C1" is not in this class; leave out one of C3, C5, C6, C7'),
        (("--without", "C3", "--without", "C5", "--without", "C6", "--without", "C7"),
         "nobody is left in this class"),
    ],
)  # fmt: skip
def test_nobody_unknown_is_planned_for(project: Path, words: tuple[str, ...], message: str) -> None:
    with pytest.raises(BuilderError, match=message.replace("(", r"\(")):
        run(project, *words)
    assert not plan_of(project).exists()


def test_anew_keeps_the_plan_that_stood_there(project: Path) -> None:
    run(project)
    edit(plan_of(project), "C6: roll", "C6: even-count")
    changed = plan_of(project).read_bytes()
    result = run(project, "--anew")
    assert result.exit_code == 0
    assert "C6: roll" in plan_of(project).read_text()
    (earlier,) = (plan_of(project).parent / "earlier").iterdir()
    assert earlier.read_bytes() == changed
    assert f"The one before is kept in {earlier}" in result.stdout


def test_faults_of_the_class_file_are_all_told_and_nothing_is_written(project: Path) -> None:
    path = project / "demo_program" / CLASS
    edit(path, "people: [C3, C5, C6, C7]", "people: [C3, C5, C77]")
    edit(path, "minutes: 45", "minutes: long")
    result = run(project)
    assert result.exit_code == 1
    assert f"demo_program/{CLASS}:2:18: " in result.stderr
    assert f"demo_program/{CLASS}:3:10: " in result.stderr
    assert not plan_of(project).parent.exists()


def test_faults_of_the_plan_file_are_told_and_it_stays(project: Path) -> None:
    run(project)
    edit(plan_of(project), "C6: roll", "C6: rol")
    changed = plan_of(project).read_bytes()
    result = run(project)
    assert result.exit_code == 1
    assert f"demo_program/{PLAN}:" in result.stderr
    assert 'write "roll" if that is meant' in result.stderr
    assert plan_of(project).read_bytes() == changed


def test_a_class_for_nobody_cleared_says_who_waits_for_what(project: Path) -> None:
    people = project / "demo_program/people.csv"
    edit(people, "pregnancy 2026-09-10", "")
    alone = project / "demo_program/classes/2026-11-27-alone.yml"
    alone.write_text("people: [C1]\nminutes: 45\ncoaches: [K1]\n", encoding="utf-8")
    result = run(project, file="classes/2026-11-27-alone.yml")
    assert result.exit_code == 1
    assert "There is no plan for 2026-11-27-alone." in result.stdout
    assert "no clinician's answer on record for pregnancy" in result.stdout
    assert "a licensed clinician comes first" in result.stdout
    assert not plan_of(project).parent.exists()


def test_an_unknown_program_folder_is_told(project: Path) -> None:
    with pytest.raises(BuilderError):
        run(project, "--program", str(project / "nowhere"))
    assert not plan_of(project).exists()
