"""Look at: what a coach should look at next with one person, as data."""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from enum import StrEnum

from builder.course.course import Course
from builder.planning.permission import Adaptation
from builder.planning.progress import Progress, ReasonKind
from builder.planning.retest import Retest
from builder.planning.trends import Trend
from builder.planning.weaker_side import SideComparison
from builder.records.result import Side


class LookKind(StrEnum):
    """What there is to look at, first things first."""

    CONDITION = "condition"
    """No clinician's answer is on record for a condition."""
    CLINICIAN = "clinician"
    """A measure is a reason to have a clinician look."""
    STUCK = "stuck"
    """A lesson was ``again`` three times in a row."""
    WEAKER_SIDE = "weaker-side"
    ADAPTATION = "adaptation"
    """Something is different for this person in the next lesson."""
    WATCH_FOR = "watch-for"
    """What the next lesson's author says to watch for."""
    RETEST = "retest"


@dataclass(frozen=True, slots=True)
class Look:
    """One thing to look at."""

    kind: LookKind
    lesson_id: str = ""
    condition: str = ""
    measure_id: str = ""
    side: Side | None = None
    text: str = ""
    adaptation: Adaptation | None = None
    retest: Retest | None = None


@dataclass(frozen=True, slots=True)
class Seen:
    """What is known of a person on a day, from which the looks follow."""

    uncleared: tuple[str, ...]
    """Conditions without a clinician's answer."""
    progress: tuple[Progress, ...]
    adaptations: Mapping[str, tuple[Adaptation, ...]]
    """Next lesson to what changes in it."""
    sides: tuple[SideComparison, ...]
    trends: tuple[Trend, ...]
    retests: tuple[Retest, ...]


def find_looks(course: Course, seen: Seen) -> tuple[Look, ...]:
    """Return what to look at, by kind in the order of the kinds."""
    return (
        *(Look(LookKind.CONDITION, condition=name) for name in seen.uncleared),
        *_look_at_measures(seen.trends),
        *_look_at_stuck(seen.progress),
        *_look_at_sides(seen.sides),
        *_look_at_next(course, seen),
        *_look_at_retests(seen.retests),
    )


def list_next(progress: Iterable[Progress]) -> tuple[str, ...]:
    """Return the lessons to do next, each once, in the order of the strands."""
    return tuple(dict.fromkeys(each.lesson_id for each in progress if each.lesson_id))


def _look_at_measures(trends: Iterable[Trend]) -> Iterator[Look]:
    for trend in trends:
        if trend.asks_for_clinician:
            yield Look(LookKind.CLINICIAN, trend.lesson_id, measure_id=trend.measure.id)


def _look_at_stuck(progress: Iterable[Progress]) -> Iterator[Look]:
    for each in progress:
        if any(reason.kind is ReasonKind.STUCK for reason in each.reasons):
            yield Look(LookKind.STUCK, each.lesson_id)


def _look_at_sides(sides: Iterable[SideComparison]) -> Iterator[Look]:
    for each in sides:
        if each.weaker:
            yield Look(
                LookKind.WEAKER_SIDE, each.lesson_id, measure_id=each.measure.id, side=each.weaker
            )


def _look_at_next(course: Course, seen: Seen) -> Iterator[Look]:
    following = list_next(seen.progress)
    for name in following:
        for adaptation in seen.adaptations.get(name, ()):
            yield Look(LookKind.ADAPTATION, name, adaptation=adaptation)
    for name in following:
        for text in course.by_id[name].words.watch_for:
            yield Look(LookKind.WATCH_FOR, name, text=text)


def _look_at_retests(retests: Iterable[Retest]) -> Iterator[Look]:
    for each in retests:
        if each.is_due:
            yield Look(LookKind.RETEST, each.lesson_id, measure_id=each.measure.id, retest=each)
