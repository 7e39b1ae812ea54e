"""Home days: on which days a person practises what, between their classes.

Work has a day between, and stands on at most three days of any seven (Garber and others 2011);
every class counts as a day of work, because nobody knows yet what it will hold (ours).
"""

from collections import defaultdict
from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date, timedelta

from builder.sums.citation import ours
from builder.sums.practice import Kind, find_frequency, spread_days

MOST_MINUTES = 20
"""Of practice at home on one day, all lessons together."""
MINUTES_AT_HOME = ours("minutes-at-home", "at most 20 minutes of practice at home on one day")
CLASS_IS_WORK = ours(
    "class-is-work", "a day of class counts as a day of work, and has no practice at home"
)
QUIET_DAYS = ours("quiet-days", "quiet breathing at home on three days a week")
_DAYS_OF_WEEK = 7
_DAY = timedelta(days=1)


@dataclass(frozen=True, slots=True)
class Wish:
    """One lesson that wants its days."""

    lesson_id: str
    kind: Kind
    days_a_week: int
    minutes: int

    @property
    def is_work(self) -> bool:
        """Tell whether it needs a day between."""
        return find_frequency(self.kind).needs_day_between


@dataclass(frozen=True, slots=True)
class Span:
    """Whole weeks from a first day on."""

    first_day: date
    weeks: int

    @property
    def last_day(self) -> date:
        """Return the last day of the last week."""
        return self.first_day + timedelta(days=self.weeks * _DAYS_OF_WEEK - 1)

    def list_weeks(self) -> tuple[tuple[date, ...], ...]:
        """Return the days of each week, which begins on the weekday of the first day."""
        days = [
            self.first_day + timedelta(days=count) for count in range(self.weeks * _DAYS_OF_WEEK)
        ]
        return tuple(
            tuple(days[start : start + _DAYS_OF_WEEK])
            for start in range(0, len(days), _DAYS_OF_WEEK)
        )


def share_out(
    wishes: Sequence[Wish],
    span: Span,
    class_days: Collection[date],
    worked: Collection[date] = (),
) -> Mapping[str, tuple[date, ...]]:
    """Return the days of each lesson, in order; none where there is no room.

    ``class_days`` are those of the person around the span too, ``worked`` the days before it on
    which they worked.
    """
    filled = _Filled(span, frozenset(class_days))
    work = [wish for wish in wishes if wish.is_work]
    work_days = frozenset(_choose_work_days(work, span, frozenset(class_days), frozenset(worked)))
    for week in span.list_weeks():
        for day in week:
            if day in work_days:
                for wish in sorted(work, key=lambda each: len(filled.days[each.lesson_id])):
                    filled.add(wish, day, week)
        for wish in wishes:
            if not wish.is_work:
                for day in _order_quiet_days(wish, week, work_days):
                    filled.add(wish, day, week)
    return {wish.lesson_id: tuple(sorted(filled.days[wish.lesson_id])) for wish in wishes}


class _Filled:
    """What stands on each day so far."""

    def __init__(self, span: Span, class_days: frozenset[date]) -> None:
        self._class_days = class_days
        self._minutes: dict[date, int] = {
            day: 0 for week in span.list_weeks() for day in week if day not in class_days
        }
        self.days: defaultdict[str, list[date]] = defaultdict(list)

    def add(self, wish: Wish, day: date, week: Collection[date]) -> None:
        """Put a lesson on a day where it may stand there and is still wanted in the week."""
        own = self.days[wish.lesson_id]
        if day not in self._minutes or day in own:
            return
        has_enough = sum(1 for each in own if each in week) >= wish.days_a_week
        if not has_enough and self._minutes[day] + wish.minutes <= MOST_MINUTES:
            self._minutes[day] += wish.minutes
            own.append(day)


def _choose_work_days(
    work: Sequence[Wish], span: Span, class_days: frozenset[date], worked: frozenset[date]
) -> Iterator[date]:
    """Yield days of work, spread over each week as far as classes let them."""
    if not work:
        return
    taken = set(class_days | worked)
    wanted = max(wish.days_a_week for wish in work)
    for week in span.list_weeks():
        spread = [week[offset] for offset in spread_days(wanted, work[0].kind)]
        chosen = 0
        for day in dict.fromkeys((*spread, *week)):
            if chosen < wanted and _may_work(day, taken):
                taken.add(day)
                chosen += 1
                yield day


def _may_work(day: date, taken: Collection[date]) -> bool:
    if not {day - _DAY, day, day + _DAY}.isdisjoint(taken):
        return False
    most = find_frequency(Kind.CONTROL).most_days
    return all(_count(start, taken) < most for start in _list_starts(day))


def _list_starts(day: date) -> Iterable[date]:
    """Return the first days of all runs of seven days that hold a day."""
    return (day - timedelta(days=count) for count in range(_DAYS_OF_WEEK))


def _count(start: date, taken: Collection[date]) -> int:
    return sum(1 for count in range(_DAYS_OF_WEEK) if start + timedelta(days=count) in taken)


def _order_quiet_days(
    wish: Wish, week: Sequence[date], work_days: Collection[date]
) -> Iterable[date]:
    """Return the days of a week for quiet practice, those of work first: fewer days to remember."""
    spread = [week[offset] for offset in spread_days(wish.days_a_week, wish.kind)]
    return dict.fromkeys((*(day for day in week if day in work_days), *spread, *week))
