"""What veraPDF says of finished PDFs, where a user has it.

It is asked by the words of its own help (`--flavour`, `--format json`). Which parts its report has
is from memory, so a report without them is refused and never taken for praise.
"""

import json
import shutil
import subprocess
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from builder import rules
from builder.errors import BuilderError
from builder.publishing.proof.structure.fault import Fault

COMMAND = "verapdf"
ACCESSIBLE, ARCHIVAL = "ua1", "2a"
"""Flavours, as it calls the standards that it checks."""
_START_SECONDS, _FILE_SECONDS = 60, 10
"""As long as it may take (ours): it runs on Java, which is slow to begin."""
_UNREADABLE = BuilderError(
    "verapdf gave no report that can be read", "see what it says: verapdf --version"
)


@dataclass(frozen=True, slots=True)
class Refusal:
    """A file that isn't as a standard asks, with what it breaks."""

    path: Path
    faults: tuple[Fault, ...]


def find_verapdf() -> str:
    """Return the command; BuilderError where there is none."""
    found = shutil.which(COMMAND)
    if found is None:
        raise BuilderError(
            "there is no verapdf on this machine",
            "install it and put its folder into PATH, or leave --verapdf out",
        )
    return found


def ask_verapdf(
    command: str, files: Sequence[Path], flavour: str, seconds: float | None = None
) -> tuple[Refusal, ...]:
    """Return the files that it refuses, in the order in which they were given.

    BuilderError where it takes too long, fails, or leaves a file out.
    """
    limit = _START_SECONDS + _FILE_SECONDS * len(files) if seconds is None else seconds
    paths = [str(path.resolve()) for path in files]
    try:
        done = subprocess.run(  # noqa: S603  # the user's own program, without a shell
            [command, "--flavour", flavour, "--format", "json", *paths],
            capture_output=True,
            stdin=subprocess.DEVNULL,
            timeout=limit,
            check=False,
        )
    except subprocess.TimeoutExpired as error:
        fact = f"verapdf has not come to an end after {limit:g} s"
        raise BuilderError(fact, "try it by hand, or leave --verapdf out") from error
    except OSError as error:
        fact = f"verapdf can't be started ({error.strerror})"
        raise BuilderError(fact, "try it by hand, or leave --verapdf out") from error
    told = _read_report(done.stdout)
    results = ((path, told.get(name, [])) for path, name in zip(files, paths, strict=True))
    return tuple(_judge(path, own) for path, own in results if not _is_praised(own))


def _is_praised(results: list[Any]) -> bool:
    return bool(results) and all(_read(each, "compliant") is True for each in results)


def _judge(path: Path, results: list[Any]) -> Refusal:
    if not results:
        fact = "verapdf can't read it"
        return Refusal(path, (Fault(rules.PDF_REFUSED, fact),))
    facts = [fact for result in results for fact in _list_facts(result)]
    told = facts or ["verapdf refuses it and doesn't say why"]
    return Refusal(path, tuple(Fault(rules.PDF_REFUSED, fact) for fact in told))


def _read_report(output: bytes) -> dict[str, list[Any]]:
    """Return the results of each file by its path."""
    try:
        report = _read(json.loads(output), "report")
    except (ValueError, RecursionError) as error:
        raise _UNREADABLE from error
    jobs = _read(report, "jobs")
    if not isinstance(jobs, list):
        raise _UNREADABLE
    return {
        str(_read(_read(job, "itemDetails"), "name")): _list(_read(job, "validationResult"))
        for job in jobs
    }


def _list_facts(result: object) -> Iterator[str]:
    for rule in _list(_read(_read(result, "details"), "ruleSummaries")):
        if str(_read(rule, "status")).lower() == "failed":
            words = " ".join(str(_read(rule, "description")).split())
            number, times = _read(rule, "testNumber"), _read(rule, "failedChecks")
            yield f'verapdf says "{_read(rule, "clause")}-{number} {words}", {times} times'


def _read(holder: object, name: str) -> Any:
    return holder.get(name) if isinstance(holder, dict) else None


def _list(value: object) -> list[Any]:
    """Return a list; older versions give its only part instead."""
    if value is None:
        return []
    return value if isinstance(value, list) else [value]
