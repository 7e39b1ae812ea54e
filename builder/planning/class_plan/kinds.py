"""Kinds of blocks: what a class can be made of."""

from collections.abc import Iterator
from dataclasses import dataclass, replace

from builder.planning.class_plan import worth
from builder.planning.class_plan.problem import ClassProblem, Version
from builder.records.plan import OWN_PACE

_MINUTE = 60


@dataclass(frozen=True, slots=True, order=True)
class Kind:
    """Blocks that are alike: one count, one position family, work or not, and their minutes."""

    family: str
    is_loaded: bool
    """True where work is allowed in it."""
    count: str
    minutes: int
    copy: int = 0
    """0 stands for any number of such blocks; from 1 on for one block told apart from the rest."""

    def holds(self, version: Version) -> bool:
        """Tell whether a version can be done in such a block."""
        return (
            version.fits(self.count, self.family)
            and version.minutes <= self.minutes
            and (self.is_loaded or not version.is_loaded)
        )

    def seconds(self, problem: ClassProblem) -> int:
        """Return what one such block takes: set-up, minutes and the rest after work."""
        rest = problem.rest_seconds if self.is_loaded else 0
        return problem.set_up_seconds + self.minutes * _MINUTE + rest


def list_kinds(problem: ClassProblem) -> tuple[Kind, ...]:
    """Return the kinds in which everybody has a version, those no use to anybody left out."""
    everybody = [problem.versions[person] for person in problem.people]
    return tuple(
        kind
        for kind in sorted(set(_name_kinds(problem)))
        if all(any(map(kind.holds, versions)) for versions in everybody)
    )


def list_all_kinds(problem: ClassProblem) -> tuple[Kind, ...]:
    """Return the kinds in which anybody has a version."""
    return tuple(sorted(set(_name_kinds(problem))))


def _name_kinds(problem: ClassProblem) -> Iterator[Kind]:
    """Name kinds of which each part has a use: its count, its load and its last minute."""
    every = {version for person in problem.people for version in problem.versions[person]}
    for family in problem.families:
        here = [version for version in every if version.family == family]
        for count in {version.count for version in here}:
            for is_loaded in (False, True):
                widest = Kind(family, is_loaded, count, max(each.minutes for each in here))
                held = [version for version in here if widest.holds(version)]
                for minutes in {version.minutes for version in held}:
                    kind = replace(widest, minutes=minutes)
                    if _has_use(kind, [version for version in held if kind.holds(version)]):
                        yield kind


def _has_use(kind: Kind, held: list[Version]) -> bool:
    return any(version.count == kind.count for version in held) and (
        not kind.is_loaded or any(version.is_loaded for version in held)
    )


def find_most_blocks(problem: ClassProblem, kind: Kind) -> int:
    """Return how many blocks of a kind a class can hold at most."""
    if kind.copy:
        return 1
    time = (problem.seconds - worth.CHANGE_SECONDS) // kind.seconds(problem)
    choices = min(
        sum(version.most_times for version in problem.versions[person] if kind.holds(version))
        for person in problem.people
    )
    return max(0, min(problem.most_blocks, time, choices))


def fits_own_pace(kind: Kind, version: Version) -> bool:
    """Tell whether a version keeps its own pace while the others of such a block count."""
    return version.count == OWN_PACE != kind.count
