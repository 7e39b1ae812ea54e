"""The benchmarks' own frame: what is asked for, what is refused, and who knows the tool."""

import ast
import json
import sys
from pathlib import Path

import pytest

from tests.bench import proofs
from tests.bench.__main__ import list_experiments, main, measure, read_words, write_raw
from tests.bench.courses import list_ids, write_course
from tests.bench.experiments import (
    EXPERIMENTS,
    Experiment,
    Ratio,
    change_lesson,
    choose_lesson,
    prove_card_changed,
)
from tests.bench.pairing import Quantity, Step
from tests.bench.process import BenchError, Usage, run_command
from tests.bench.table import Measured, list_lines, write_table
from tests.bench.workshop import (
    ASK,
    ROOT,
    Workshop,
    describe_environment,
    make_stock,
    tell_plugin,
)

KNOW_THE_TOOL = {"ask_tool.py", "class_plan.py"}
"""One asks the tool what no command tells; the other is about plans of classes, not about speed
against others."""
HALF = Ratio("half", "a", "b", {2: 0.5})


def accept(said: str) -> None:
    """Take any output for good."""


def make_experiment(code: str) -> Experiment:
    command = (sys.executable, "-c", code)
    steps = (Step("a", (command,), accept), Step("b", (command,), accept))
    return Experiment("try", (2,), (HALF,), lambda *_: steps)


def measured(*walls: tuple[float, float]) -> Measured:
    rounds = [{"a": Usage(a, 2 * a, 40, 0), "b": Usage(b, b, 50, 0)} for a, b in walls]
    return Measured(make_experiment("pass"), 2, rounds)


@pytest.mark.parametrize("path", sorted(Path(__file__).parent.glob("*.py")), ids=lambda p: p.name)
def test_the_benchmarks_know_the_tool_by_its_commands_only(path: Path) -> None:
    tree = ast.parse(path.read_text(encoding="utf-8"))
    nodes = list(ast.walk(tree))
    names = [name.name for node in nodes if isinstance(node, ast.Import) for name in node.names]
    names += [node.module or "" for node in nodes if isinstance(node, ast.ImportFrom)]
    if path.name not in KNOW_THE_TOOL:
        assert [name for name in names if name.split(".")[0] == "builder"] == []


def test_options_choose_what_is_run() -> None:
    options = read_words(["--only", "check", "cards", "--sizes", "50", "--pairs", "5"])
    assert (options.only, options.sizes, options.pairs) == (["check", "cards"], [50], 5)


@pytest.mark.parametrize("words", [["--pairs", "0"], ["--sizes", "x"], ["--only", "cake"]])
def test_what_can_not_be_run_is_refused(words: list[str]) -> None:
    with pytest.raises(SystemExit):
        read_words(words)


def test_the_list_names_every_ratio(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["--list"]) == 0
    assert capsys.readouterr().out.splitlines() == list(list_experiments())
    assert len(list(list_experiments())) == sum(len(each.ratios) for each in EXPERIMENTS)


def test_every_goal_is_of_a_size_that_is_run() -> None:
    for each in EXPERIMENTS:
        assert all(set(ratio.goals) <= set(each.sizes) for ratio in each.ratios)


def test_a_line_has_ratio_goal_and_both_sides() -> None:
    (line,) = list_lines(measured((1, 4), (2, 4), (1, 2)))
    assert line == (
        "| half | 2 | wall | 0.250 / **0.500** / 0.500 | 0.50 | yes | 1.00 ÷ 4.00 |"
        " 2.00 ÷ 4.00 | 40 ÷ 50 |"
    )


def test_a_goal_that_is_missed_is_told() -> None:
    (line,) = list_lines(measured((3, 4)))
    assert "| 0.50 | no |" in line


def test_a_build_that_fails_gives_no_ratio(tmp_path: Path) -> None:
    found = measure(make_experiment("raise SystemExit(1)"), Workshop(tmp_path), 2, 3)
    assert list(found.rounds) == []
    assert "not measured" in write_table([found])
    assert "ended with 1" in write_table([found])


def test_one_failure_in_a_later_round_spoils_all_rounds(tmp_path: Path) -> None:
    flag = tmp_path / "flag"
    code = f"import pathlib; pathlib.Path({str(flag)!r}).open('a').write('x')"
    spoilt = f"{code}; raise SystemExit(pathlib.Path({str(flag)!r}).stat().st_size == 3)"
    found = measure(make_experiment(spoilt), Workshop(tmp_path), 2, 3)
    assert len(found.rounds) == 1
    assert "| not measured: " in write_table([found])


def test_each_round_works_in_a_folder_of_its_own(tmp_path: Path) -> None:
    seen = []

    def make_steps(work: Workshop, folder: Path, lessons: int) -> tuple[Step, ...]:
        seen.append(folder)
        assert list(folder.iterdir()) == []
        return (Step("a", ((sys.executable, "-c", "open('left', 'w')"),), accept),)

    measure(Experiment("try", (1,), (), make_steps), Workshop(tmp_path), 1, 2)
    assert len(set(seen)) == 2
    assert list(tmp_path.iterdir()) == []


def test_what_a_machine_lacks_is_told_in_its_row(tmp_path: Path) -> None:
    lacking = Experiment("try", (2,), (HALF,), lambda *_: (), lambda: "typst is not installed")
    assert "not measured: typst is not installed" in write_table(
        [measure(lacking, Workshop(tmp_path), 2, 3)]
    )


def test_raw_measurements_hold_every_run(tmp_path: Path) -> None:
    write_raw(tmp_path / "raw.json", {"cores": "2"}, [measured((1, 4), (2, 4))])
    raw = json.loads((tmp_path / "raw.json").read_text(encoding="utf-8"))
    assert raw["machine"] == {"cores": "2"}
    assert [one["a"]["wall_seconds"] for one in raw["runs"][0]["rounds"]] == [1, 2]


def test_a_whole_run_prints_the_table_and_keeps_each_run(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    raw = tmp_path / "raw.json"
    words = ["--only", "check", "--sizes", "1", "--pairs", "1"]
    assert main([*words, "--json", str(raw), "--folder", str(tmp_path)]) == 0
    said = capsys.readouterr().out
    assert "`tempoleaf check`, nothing changed ÷ first run | 1 | wall | " in said
    assert "Fewer than 3 rounds: this proves nothing." in said
    (run,) = json.loads(raw.read_text(encoding="utf-8"))["runs"]
    assert [list(one) for one in run["rounds"]] == [["first", "unchanged"]]
    assert list(tmp_path.iterdir()) == [raw]


def test_quantities_that_count_for_a_goal_are_those_of_the_goals() -> None:
    by_key = {each.key: each.ratios[0].quantities for each in EXPERIMENTS}
    assert by_key["site"] == (Quantity.WALL, Quantity.CPU)
    assert by_key["memory"] == (Quantity.WORKER_MEMORY,)


def test_cards_are_switched_off_or_nothing_is_measured(tmp_path: Path) -> None:
    settings = tmp_path / "mkdocs.yml"
    settings.write_text((ROOT / "mkdocs.yml").read_text(encoding="utf-8"), encoding="utf-8")
    tell_plugin(settings, "cards: false")
    assert "  - tempoleaf:\n      cards: false\n" in settings.read_text(encoding="utf-8")
    with pytest.raises(BenchError, match="can't be told"):
        tell_plugin(settings, "cards: false")


def test_a_course_is_laid_out_anew_for_each_round(tmp_path: Path) -> None:
    work = Workshop(tmp_path)
    work.lay_out(tmp_path / "one", 2)
    change_lesson(tmp_path / "one", choose_lesson(tmp_path / "one"))
    with pytest.raises(BenchError, match="could not be changed"):
        change_lesson(tmp_path / "one", choose_lesson(tmp_path / "one"))
    work.lay_out(tmp_path / "two", 2)
    change_lesson(tmp_path / "two", choose_lesson(tmp_path / "two"))


def test_a_card_that_is_as_before_is_no_new_card(tmp_path: Path) -> None:
    card = tmp_path / "cards" / "a.pdf"
    card.parent.mkdir()
    card.write_bytes(b"old")
    memory = proofs.Memory()
    memory.keep(tmp_path)
    with pytest.raises(BenchError, match="as it was"):
        prove_card_changed(memory, tmp_path, "a")
    card.write_bytes(b"new")
    prove_card_changed(memory, tmp_path, "a")


@pytest.mark.parametrize("settings", ["theme: {}\n", 'theme: {"custom_dir": "x"}\n'])
def test_settings_that_are_not_stock_are_refused(settings: str) -> None:
    with pytest.raises(BenchError, match="stock"):
        make_stock(settings)


def test_commands_find_this_folders_tool_first() -> None:
    code = "import builder; print(builder.__file__)"
    _, said = run_command((sys.executable, "-c", code), Path("/"), describe_environment())
    assert Path(said.strip()) == ROOT / "builder" / "__init__.py"


def test_stock_gets_the_finished_pages_and_nothing_of_ours(tmp_path: Path) -> None:
    plain = Workshop(tmp_path).find_plain(2)
    settings = (plain / "mkdocs.yml").read_text(encoding="utf-8")
    assert 'plugins: ["search"]' in settings
    assert "custom_dir" not in settings
    assert len(list(plain.glob("docs/lessons/*/*.md"))) > 2
    assert list(plain.rglob("*.pdf")) == []


def test_the_naive_loop_gets_each_cards_html(tmp_path: Path) -> None:
    write_course(tmp_path / "course", 2)
    words = (*ASK, "cards", str(tmp_path / "course"), str(tmp_path / "html"))
    run_command(words, ROOT, describe_environment())
    names = {path.stem for path in (tmp_path / "html").glob("*.html")}
    assert names == set(list_ids(tmp_path / "course"))
    assert "course:" not in (tmp_path / "html" / "style.css").read_text(encoding="utf-8")
