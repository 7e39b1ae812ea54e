"""How fast the tool is against what it could be: `python -m tests.bench`.

Both sides of each ratio are measured in turn in one run. No test, because times depend on the
machine; run it by hand while nothing else runs. Exit code 1 where something couldn't be measured.
"""

import argparse
import compileall
import json
import shutil
import sys
import tempfile
from collections.abc import Iterator, Sequence
from dataclasses import asdict
from pathlib import Path

from tests.bench.experiments import EXPERIMENTS, Experiment
from tests.bench.machine import describe_machine
from tests.bench.pairing import Round, run_round
from tests.bench.process import BenchError
from tests.bench.table import Measured, list_lines, write_facts, write_table
from tests.bench.workshop import ROOT, Workshop, describe_environment

LEAST_PAIRS = 3


def read_words(words: Sequence[str]) -> argparse.Namespace:
    """Read the options of the command."""
    keys = [each.key for each in EXPERIMENTS]
    parser = argparse.ArgumentParser("python -m tests.bench", description=__doc__)
    parser.add_argument("--list", action="store_true", help="print what there is, run nothing")
    parser.add_argument("--only", nargs="+", choices=keys, default=keys, help="run these only")
    parser.add_argument("--sizes", nargs="+", type=_read_count, help="other numbers of lessons")
    parser.add_argument("--pairs", type=_read_count, default=LEAST_PAIRS, help="rounds of each")
    parser.add_argument("--json", type=Path, help="write every single measurement here")
    parser.add_argument("--folder", type=Path, help="where to work, instead of a temporary folder")
    return parser.parse_args(words)


def _read_count(word: str) -> int:
    if not word.isdecimal() or not int(word):
        raise argparse.ArgumentTypeError(f'"{word}" is not a whole number from 1 on')
    return int(word)


def list_experiments() -> Iterator[str]:
    """Yield a line for each ratio: its key, its sizes, what it is."""
    for each in EXPERIMENTS:
        sizes = " ".join(map(str, each.sizes))
        yield from (f"{each.key:8} {sizes:16} {ratio.title}" for ratio in each.ratios)


def measure(experiment: Experiment, work: Workshop, lessons: int, pairs: int) -> Measured:
    """Run an experiment at one size, each round in a fresh folder."""
    fault = experiment.lacks()
    rounds: list[Round] = []
    for number in range(0 if fault else pairs):
        sys.stderr.write(f"{experiment.key}, {lessons} lessons, round {number + 1} of {pairs}\n")
        with tempfile.TemporaryDirectory(dir=work.folder, prefix="round-") as name:
            folder = Path(name)
            try:
                steps = experiment.make_steps(work, folder, lessons)
                rounds.append(run_round(steps, folder, describe_environment()))
            except BenchError as error:
                sys.stderr.write(f"{error}\n")
                return Measured(experiment, lessons, rounds, str(error))
    return Measured(experiment, lessons, rounds, fault)


def measure_all(options: argparse.Namespace, folder: Path) -> Iterator[Measured]:
    """Yield what came out of each experiment at each size."""
    compileall.compile_dir(ROOT / "builder", quiet=2)  # else the first run would do it, and pay
    for experiment in EXPERIMENTS:
        if experiment.key in options.only:
            for lessons in options.sizes or experiment.sizes:
                yield measure(experiment, Workshop(folder), lessons, options.pairs)


def write_raw(path: Path, facts: dict[str, str], measured: Sequence[Measured]) -> None:
    """Write every measurement as JSON."""
    runs = [
        {
            "key": each.experiment.key,
            "lessons": each.lessons,
            "fault": each.fault,
            "rounds": [{name: asdict(used) for name, used in one.items()} for one in each.rounds],
        }
        for each in measured
    ]
    text = json.dumps({"machine": facts, "runs": runs}, indent=1, ensure_ascii=False)
    path.write_text(f"{text}\n", encoding="utf-8")


def main(words: Sequence[str]) -> int:
    """Run what was asked for and print the table."""
    options = read_words(words)
    if options.list:
        print(*list_experiments(), sep="\n")  # noqa: T201
        return 0
    facts = describe_machine()
    measured: list[Measured] = []
    folder = Path(tempfile.mkdtemp(dir=options.folder, prefix="tempoleaf-bench-"))
    try:
        for each in measure_all(options, folder):
            measured.append(each)
            sys.stderr.writelines(f"{line}\n" for line in list_lines(each))
            if options.json:  # after each, for a whole run takes hours
                write_raw(options.json, facts, measured)
    finally:
        shutil.rmtree(folder)
    print(write_table(measured), write_facts(facts), sep="\n\n")  # noqa: T201
    if options.pairs < LEAST_PAIRS:
        print(f"Fewer than {LEAST_PAIRS} rounds: this proves nothing.")  # noqa: T201
    return int(any(each.fault for each in measured))


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
