"""Fuzzes what reads other people's files: `python -m tests.fuzz --minutes 10 [TARGET ...]`.

Prints a line for each target: how long, how many tries, how many were accepted, how many distinct
answers were reached, and which rules. What crashed, hung or was unsound is kept as a file with a
traceback beside it. Exit code 1 where anything was found.
"""

import argparse
import sys
import tempfile
from collections.abc import Sequence
from pathlib import Path

from tests.fuzz.long_run import Order, Outcome, run_targets
from tests.fuzz.targets import TARGETS


def read_words(words: Sequence[str]) -> argparse.Namespace:
    """Read the options of the command."""
    parser = argparse.ArgumentParser("python -m tests.fuzz", description=__doc__)
    parser.add_argument("target", nargs="*", help=f"some of: {', '.join(TARGETS)}; all if none")
    parser.add_argument("--minutes", type=float, default=10, help="how long each is tried")
    parser.add_argument("--at-once", type=int, default=2, help="how many are tried side by side")
    parser.add_argument("--seed", type=int, default=0, help="another one tries other things")
    parser.add_argument(
        "--guided", action="store_true", help="led by coverage; needs the package atheris"
    )
    parser.add_argument("--folder", type=Path, help="where to keep what is found")
    chosen = parser.parse_args(words)
    unknown = [name for name in chosen.target if name not in TARGETS]
    if unknown:
        parser.error(f"no target is called {', '.join(unknown)}")
    return chosen


def tell(outcome: Outcome) -> str:
    """Return what came of a target, with each fault below it."""
    faults = (f"\n--- {name}\n{text}" for name, text in outcome.sums.faults.items())
    ends = (f"\n--- {end}" for end in outcome.ends)
    return "".join((outcome.write(), *faults, *ends, "\n"))


def main(words: Sequence[str]) -> int:
    """Run what the words ask for; tell whether anything was found."""
    chosen = read_words(words)
    folder = chosen.folder or Path(tempfile.mkdtemp(prefix="fuzz-found-"))
    sys.stdout.write(f"What is found is kept in {folder}\n")
    module = "tests.fuzz.guided" if chosen.guided else "tests.fuzz.worker"
    order = Order(folder, chosen.minutes * 60, chosen.seed, module)
    is_sound = True
    for outcome in run_targets(chosen.target or list(TARGETS), order, chosen.at_once):
        sys.stdout.write(tell(outcome))
        sys.stdout.flush()
        is_sound &= outcome.is_sound
    return 0 if is_sound else 1


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
