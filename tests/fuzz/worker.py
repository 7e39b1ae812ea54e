"""Tries one target for a while in this process; the long run starts it, and watches over it."""

import resource
import sys
import warnings
from collections.abc import Sequence
from pathlib import Path
from random import Random

from tests.fuzz.changes import change
from tests.fuzz.kinds import Target
from tests.fuzz.targets import TARGETS
from tests.fuzz.trial import Sums, Trial

MOST_MEMORY_BYTES = 3 * 2**30
_MOST_CHANGES = 5
_MOST_SEEDS = 4000


def try_target(target: Target, folder: Path, seconds: float, seed: int) -> Sums:
    """Try a target until the time is over; what leads to a new answer is changed further."""
    random, trial = Random(seed), Trial(target, folder)  # noqa: S311  # no secret
    first = target.seeds()
    grown = list(first)
    while trial.sums.seconds < seconds:
        tries = trial.sums.tries
        seeds = first if random.randrange(2) else grown
        data = first[tries] if tries < len(first) else make_next(target, seeds, random)
        if trial.take(data) and len(grown) < _MOST_SEEDS:
            grown.append(data)
    trial.tell()
    return trial.sums


def make_next(target: Target, seeds: Sequence[bytes], random: Random) -> bytes:
    """Return one of some files after a few changes."""
    data = random.choice(seeds)
    for _ in range(random.randrange(1, _MOST_CHANGES)):
        data = change(data, random.getrandbits(64), target, seeds)
    return data


def prepare() -> None:
    """Hold this process to a limit of memory, and have each warning count as a fault."""
    resource.setrlimit(resource.RLIMIT_AS, (MOST_MEMORY_BYTES, MOST_MEMORY_BYTES))
    warnings.simplefilter("error")


def main() -> None:
    """Try the target that the command names."""
    name, folder, seconds, seed = sys.argv[1:]
    prepare()
    try_target(TARGETS[name], Path(folder), float(seconds), int(seed))


if __name__ == "__main__":
    main()
