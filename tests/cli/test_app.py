"""The commands as a whole: what they print, and how they end."""

import json
import os
import subprocess
import sys
from collections.abc import Callable
from dataclasses import dataclass
from datetime import date
from pathlib import Path

import jsonschema
import pytest

from builder import __version__
from builder.cli.app import WORDS, main
from builder.course.demand import AXES
from builder.rules import RULES

WriteCourse = Callable[..., Path]
Run = Callable[..., "Done"]
ROOT = Path(__file__).parents[2]
COMMAND = [sys.executable, "-c", "from builder.cli.app import main; main()"]
LONG_OUT = "content/lessons/count/long-out.md"
HOLD = "content/lessons/count/short-hold.md"


@dataclass(frozen=True)
class Done:
    """How a command ended."""

    stdout: str
    stderr: str
    returncode: int


@pytest.fixture
def run(capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch) -> Callable[..., Done]:
    """Run the command line as its entry point does, in a folder."""

    def start(*words: str | Path, cwd: Path = ROOT) -> Done:
        monkeypatch.chdir(cwd)
        monkeypatch.setenv("COLUMNS", "100")
        monkeypatch.setattr(sys, "argv", ["tempoleaf", *map(str, words)])
        with pytest.raises(SystemExit) as ended:
            main()
        printed = capsys.readouterr()
        return Done(printed.out, printed.err, int(ended.value.code or 0))

    return start


@pytest.fixture
def project(write_course: WriteCourse) -> Path:
    """Write the small course, reviewed today, so that no review has run out."""
    root = write_course()
    for path in (root / "content").rglob("*.md"):
        text = path.read_text(encoding="utf-8")
        path.write_text(text.replace("2026-10-01", date.today().isoformat()), encoding="utf-8")
    return root


def change(root: Path, path: str, old: str, new: str) -> None:
    text = (root / path).read_text(encoding="utf-8")
    assert old in text
    (root / path).write_text(text.replace(old, new), encoding="utf-8")


def test_a_sound_course_passes_under_strict(run: Run, project: Path) -> None:
    done = run("check", "--strict", project)
    assert (done.stdout, done.stderr, done.returncode) == ("no findings in 5 lessons\n", "", 0)


def test_the_course_of_the_current_folder_is_checked(run: Run, project: Path) -> None:
    assert run("check", cwd=project).stdout == "no findings in 5 lessons\n"


def test_all_findings_of_all_files_come_in_one_run(run: Run, project: Path) -> None:
    change(project, LONG_OUT, "tempo: 4-1-6-1", "tempo: 4:1:6:1")
    change(project, LONG_OUT, "effort: resting", "efort: resting")
    change(
        project,
        HOLD,
        "exhale: Out for three",
        'exhale: "Out, one, two, three, hold, one, two, three, in again"',
    )
    change(project, HOLD, "stop_if: [You feel dizzy]\n", "")
    done = run("check", project)
    assert done.returncode == 1
    assert done.stderr == ""
    assert [line.split(":")[3].strip() for line in done.stdout.splitlines()[:-1]] == [
        "H103 key-missing",
        "H107 tempo-malformed",
        "H104 key-unknown",
        "N107 stop-signs-missing",
        "W104 long-cue",
    ]
    assert done.stdout.splitlines()[1] == (
        f'{LONG_OUT}:7:8: H107 tempo-malformed: tempo "4:1:6:1" has other signs than '
        "hyphens between its phases; write 4-1-6-1."
    )
    assert done.stdout.splitlines()[-1] == "4 errors, 1 warning in 5 lessons"


def test_warnings_fail_under_strict_only(run: Run, project: Path) -> None:
    change(project, LONG_OUT, "let your jaw go slack", "center your head")
    assert run("check", project).returncode == 0
    done = run("check", "--strict", project)
    assert done.returncode == 1
    assert done.stdout == (
        f'{LONG_OUT}:19:1: W109 foreign-spelling: "center" is not spelt as in en-GB; '
        'write "centre".\n1 warning in 5 lessons\n'
    )


def test_an_unreadable_course_file_is_a_finding(run: Run, project: Path) -> None:
    change(project, "content/course.yml", "title: A small course", "title: [")
    done = run("check", project)
    assert done.returncode == 1
    assert done.stdout.startswith("content/course.yml:")
    assert done.stdout.endswith("in 0 lessons\n")


@pytest.mark.parametrize("form", ["json", "sarif"])
def test_programs_get_json_alone(run: Run, project: Path, form: str) -> None:
    change(project, HOLD, "stop_if: [You feel dizzy]\n", "")
    done = run("check", "--format", form, project)
    report = json.loads(done.stdout)
    assert done.returncode == 1
    found = report["findings"] if form == "json" else report["runs"][0]["results"]
    assert [finding.get("rule", finding.get("ruleId")) for finding in found] == ["N107"]


def test_workflow_commands_name_file_and_line(run: Run, project: Path) -> None:
    change(project, LONG_OUT, "position: supine", "position: suppine")
    assert run("check", "--format", "github", project).stdout == (
        f"::error file={LONG_OUT},line=6,col=11,title=H110 name-unknown::"
        '"suppine" under "position" is unknown; write "supine" if that is meant.\n'
        "1 error in 5 lessons\n"
    )


@pytest.mark.parametrize("command", ["check", "demand"])
def test_no_course_stops_the_run_with_its_cure(run: Run, tmp_path: Path, command: str) -> None:
    done = run(command, cwd=tmp_path)
    assert done.returncode == 2
    assert done.stdout == ""
    assert done.stderr == (
        'cannot go on: there is no course here: "content/course.yml" is missing; '
        "run this in a course's folder, or make one with: tempoleaf new DIR.\n"
    )


@pytest.mark.parametrize(
    "words", [("check", "--format", "xml"), ("chekc",), ("check", "--quick"), ("schema", "card")]
)
def test_usage_errors_end_with_2(run: Run, words: tuple[str, ...]) -> None:
    done = run(*words)
    assert (done.returncode, done.stdout) == (2, "")
    assert "Usage: tempoleaf" in done.stderr


def test_the_version_is_the_package_s(run: Run) -> None:
    assert run("--version").stdout == f"tempoleaf {__version__}\n"


def test_help_lists_the_commands_and_defers_to_clinicians(run: Run) -> None:
    done = run("--help")
    assert done.returncode == 0
    assert "not medical advice" in done.stdout
    for word in WORDS:
        assert f" {word} " in done.stdout


def test_every_command_s_file_has_its_word() -> None:
    files = (ROOT / "builder/cli").glob("*_command.py")
    assert {path.stem.removesuffix("_command") for path in files} == set(WORDS)


def test_a_command_with_a_slip_gets_the_nearest_one(run: Run) -> None:
    assert "Did you mean 'check'?" in run("chekc").stderr


def test_explain_prints_the_page_of_a_rule(run: Run) -> None:
    page = (ROOT / "builder/rules/pages/O102.md").read_text(encoding="utf-8")
    assert run("explain", "O102").stdout == page
    assert run("explain", "o102").stdout == page
    assert run("explain", "circular-order").stdout == page


def test_explain_lists_every_rule(run: Run) -> None:
    lines = run("explain").stdout.splitlines()
    assert [line.split() for line in lines] == [
        [rule.id, rule.name, rule.severity.value] for rule in RULES
    ]


@pytest.mark.parametrize(
    ("name", "cure"),
    [
        ("W1O9", 'write "W109" if that is meant'),
        ("circular-orders", 'write "circular-order" if that is meant'),
        ("gravity", "see: tempoleaf explain"),
    ],
)
def test_explain_suggests_the_nearest_rule(run: Run, name: str, cure: str) -> None:
    done = run("explain", name)
    assert done.returncode == 2
    assert done.stderr == f'cannot go on: no rule is called "{name}"; {cure}.\n'


def test_demand_prints_a_table(run: Run, project: Path) -> None:
    lines = run("demand", project).stdout.splitlines()
    assert lines[0].split() == ["level", "lesson", *AXES]
    assert (
        "2      short-hold           0      2+    1+    0      0      0         0        0" in lines
    )


def test_demand_prints_json(run: Run, project: Path) -> None:
    report = json.loads(run("demand", "--json", project).stdout)
    assert [row["lesson"] for row in report["lessons"]][:2] == ["hand-on-belly", "wide-ribs"]


def test_demand_says_that_lessons_are_left_out(run: Run, project: Path) -> None:
    change(project, LONG_OUT, "position: supine", "position: suppine")
    done = run("demand", project)
    assert done.returncode == 1
    assert "long-out" not in done.stdout
    assert done.stderr == "some files can't be read and are left out; see: tempoleaf check.\n"


@pytest.mark.parametrize("kind", ["lesson", "notice", "course", "class", "plan"])
def test_schemas_are_sound(run: Run, kind: str) -> None:
    schema = json.loads(run("schema", kind).stdout)
    jsonschema.Draft202012Validator.check_schema(schema)
    assert schema["additionalProperties"] is False


def test_a_terminal_that_lacks_letters_gets_escapes(project: Path) -> None:
    change(project, LONG_OUT, "tempo: 4-1-6-1", "tempo: ٤-١-٤-١")
    done = subprocess.run(
        [*COMMAND, "check"],
        cwd=project,
        env={**os.environ, "PYTHONIOENCODING": "ascii"},
        capture_output=True,
        text=True,
        check=False,
    )
    assert done.returncode == 1
    assert 'tempo phase "\\u0664" is not a number of seconds' in done.stdout
    assert done.stderr == ""


@pytest.mark.skipif(not Path("/dev/full").exists(), reason="only Linux has a full device")
@pytest.mark.parametrize("words", [("check",), ("explain",), ("schema", "course")])
def test_a_full_disk_stops_the_run_with_its_cure(project: Path, words: tuple[str, ...]) -> None:
    with Path("/dev/full").open("w", encoding="utf-8") as full:
        done = subprocess.run(
            [*COMMAND, *words],
            cwd=project,
            stdout=full,
            stderr=subprocess.PIPE,
            text=True,
            check=False,
        )
    assert done.returncode == 2
    assert done.stderr == ("cannot go on: the disk is full; make room on it and run this again.\n")


def test_a_reader_that_has_seen_enough_ends_the_run_quietly(project: Path) -> None:
    with subprocess.Popen(
        [*COMMAND, "explain"], cwd=project, stdout=subprocess.PIPE, stderr=subprocess.PIPE
    ) as process:
        assert process.stdout is not None
        process.stdout.close()
        assert process.stderr is not None
        assert process.stderr.read() == b""
