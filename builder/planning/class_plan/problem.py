"""The problem of a class: who may do what, what it is worth, and what there is to do it with."""

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cached_property

from builder.planning.class_plan import worth
from builder.records.plan import OWN_PACE

_MINUTE = 60


@dataclass(frozen=True, slots=True)
class Version:
    """One lesson as one person does it today."""

    lesson_id: str
    strand_id: str
    count: str
    """A tempo, or `OWN_PACE`; who breathes at their own pace fits into a block of any count."""
    family: str
    is_loaded: bool
    """Work against a load, or of more than gentle effort: a rest comes after it."""
    seconds: int
    """All sets, sides and rests of this person, one set more for a weaker side included."""
    points: int
    is_new: bool = False
    """Never done before: a coach looks closely."""
    is_adapted: bool = False
    """A notice changes it for this person."""
    props: tuple[tuple[str, int], ...] = ()
    most_times: int = worth.MOST_TIMES
    """How often in one class."""

    @property
    def minutes(self) -> int:
        """Return the whole minutes that it fits into."""
        return -(-self.seconds // _MINUTE)

    @property
    def has_work(self) -> bool:
        """Tell whether it brings the person on, and is no mere repetition."""
        return self.points >= worth.PRACTICE

    def fits(self, count: str, family: str) -> bool:
        """Tell whether it can be done in a block."""
        return self.family == family and self.count in (count, OWN_PACE)


@dataclass(frozen=True)
class ClassProblem:
    """All that a plan is made from; people and versions come in a fixed order."""

    people: tuple[str, ...]
    versions: Mapping[str, tuple[Version, ...]]
    """What each person may do; nothing else may stand in a plan."""
    families: tuple[str, ...]
    """Position families, least asking first: the order of a class."""
    seconds: int
    most_blocks: int
    close_looks: int
    """At how many people coaches can look closely in one block."""
    most_new: int
    props: Mapping[str, int]
    """How many are at hand, for every prop that a version uses."""
    set_up_seconds: int
    """Before each block."""
    rest_seconds: int
    """After each block of work."""
    title: str = ""

    @cached_property
    def by_lesson(self) -> dict[tuple[str, str], Version]:
        """Return each version by person and lesson."""
        return {
            (person, version.lesson_id): version
            for person in self.people
            for version in self.versions[person]
        }

    @cached_property
    def work_strands(self) -> dict[str, tuple[str, ...]]:
        """Return the strands in which each person has work to do, sorted."""
        return {
            person: tuple(
                sorted({each.strand_id for each in self.versions[person] if each.has_work})
            )
            for person in self.people
        }
