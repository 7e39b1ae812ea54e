"""Tries one target as the worker does, led by the lines of code that it reaches.

Needs the package atheris, which is no dependency of this project.
"""

import sys
import warnings
from importlib import import_module
from pathlib import Path

atheris = import_module("atheris")
with atheris.instrument_imports(include=["builder"], enable_loader_override=False):
    from tests.fuzz.targets import TARGETS

from tests.fuzz.changes import change  # noqa: E402  # what is measured is loaded first
from tests.fuzz.trial import Trial  # noqa: E402


def main() -> None:
    """Try the target that the command names; the engine ends the process."""
    name, folder, seconds, seed = sys.argv[1:]
    warnings.simplefilter("error")
    target, corpus = TARGETS[name], Path(folder, "corpus")
    seeds = target.seeds()
    corpus.mkdir(exist_ok=True)
    for number, data in enumerate(seeds):
        (corpus / f"seed-{number}").write_bytes(data)
    trial = Trial(target, Path(folder))

    def mutate(data: bytes, most: int, number: int) -> bytes:
        return change(data, number, target, seeds)[:most]

    options = (
        *(f"-max_total_time={float(seconds):.0f}", f"-seed={int(seed) + 1}", "-max_len=200000"),
        *("-rss_limit_mb=3000", "-timeout=600", f"-artifact_prefix={folder}/", "-verbosity=1"),
    )
    words = [sys.argv[0], *options, str(corpus)]
    atheris.Setup(words, lambda data: [trial.take(data), None][1], custom_mutator=mutate)
    atheris.Fuzz()


if __name__ == "__main__":
    main()
