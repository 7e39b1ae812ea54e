"""Several weeks as lines of text: the class days, who reaches the aim when, who doesn't and why."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from builder.course.course import Course
from builder.planning.weeks.explain import Cause, Shortfall
from builder.planning.weeks.pace import OWN_PACE
from builder.planning.weeks.planned import PlannedWeeks
from builder.planning.weeks.problem import (
    MOST_MORE_WEEKS,
    ROOM_IN_A_CLASS,
    STRAND_MINUTES,
    ClassDay,
    Hindered,
    Hindrance,
)
from builder.planning.weeks.search import Found
from builder.records.person import Person
from builder.records.weeks_order import Weekday
from builder.report.counted import count
from builder.report.days import say_day
from builder.report.placement_words import say_barrier
from builder.sums.practice import DAY_BETWEEN, GARBER

EXPECTATION = (
    "Dates ahead are an expectation, not a promise: everybody comes to every class and is ready at "
    "their usual pace. After each class, plan anew. Nobody is to hurry for a date: a person goes "
    "on when the lesson's sign of readiness shows."
)
NOTHING_NEW = "practice of what is known"
"""What there is for somebody with nothing open on the way that day."""
CITATIONS = (OWN_PACE, ROOM_IN_A_CLASS, GARBER, DAY_BETWEEN)


@dataclass(frozen=True)
class WeeksView:
    """All that is told of several weeks."""

    course: Course
    people: Mapping[str, Person]
    planned: PlannedWeeks


def write_weeks(view: WeeksView) -> str:
    """Write several weeks for a coach."""
    return "\n".join(
        (
            *_write_head(view),
            "",
            *_write_days(view),
            "",
            *_write_reached(view),
            *_write_shortfalls(view),
            say_proof(view.planned.found),
            EXPECTATION,
            "",
            "Sources:",
            *(f"  {citation}" for citation in CITATIONS),
            "",
            view.course.settings.caution.strip(),
        )
    )


def say_proof(found: Found) -> str:
    """Say whether the schedule is the best there is, or what might still be better."""
    worth, bound = found.schedule.worth, found.bound
    if found.is_proven:
        return (
            "Proven: with these class days nobody more can reach the aim, no lesson more can be "
            "brought to readiness, and none earlier on the whole."
        )
    if worth.reached < bound.reached:
        most = count(bound.reached - worth.reached, "person", "people")
        return f"Not proven: at most {most} more might reach the aim."
    first = "Proven: nobody more can reach the aim with these class days."
    if worth.lessons < bound.lessons:
        most = count(bound.lessons - worth.lessons, "lesson", "lessons")
        return f"{first} Not proven: at most {most} more might be brought to readiness."
    most = count(bound.earliness - worth.earliness, "class day", "class days")
    return f"{first} Not proven: lessons might be ready earlier, by at most {most} in all."


def say_shortfall(view: WeeksView, shortfall: Shortfall) -> str:
    """Say why somebody doesn't reach the aim by the last class."""
    match shortfall.cause:
        case Cause.HINDERED:
            return "; ".join(_say_hindered(view.course, each) for each in shortfall.hindered)
        case Cause.OTHERS:
            return "there would be time enough alone, but the places go to what others need"
        case Cause.REST_DAYS:
            return (
                "rest comes first: work needs a day between, and a strand has its most days a week"
            )
        case Cause.TOO_FEW_CLASSES:
            return "too few classes, even were all of them for this person alone"
        case Cause.UNKNOWN:
            return "too few classes, as far as was looked"


def list_help(shortfall: Shortfall, minutes: int) -> tuple[str, ...]:
    """Return what is still needed after the last class, and what would help."""
    if shortfall.cause is Cause.HINDERED:
        return ()
    missing = " and ".join(
        f"{count(number, 'class', 'classes')} of {strand}"
        for strand, number in shortfall.missing.items()
    )
    return (f"still needed after the last class: {missing}", *_list_changes(shortfall, minutes))


def _list_changes(shortfall: Shortfall, minutes: int) -> Iterator[str]:
    if shortfall.more_weeks is not None:
        weeks = count(shortfall.more_weeks, "week", "weeks")
        fewest = "" if shortfall.is_fewest else " (fewer might do)"
        yield f"would help: {weeks} more{fewest}"
    elif shortfall.is_fewest:
        yield f"{MOST_MORE_WEEKS} weeks more wouldn't be enough"
    if shortfall.more_places is not None:
        longer = minutes + shortfall.more_places * STRAND_MINUTES
        room = count(shortfall.more_places, "strand", "strands")
        yield f"would help: room for {room} more in a class, so {longer} minutes"


def say_person(view: WeeksView, person_id: str) -> str:
    """Name a person by id and name."""
    person = view.people.get(person_id)
    return f"{person_id} ({person.name})" if person and person.name else person_id


def _write_head(view: WeeksView) -> Iterator[str]:
    order, problem = view.planned.order, view.planned.problem
    yield (
        f"{order.title}: {count(len(problem.people), 'person', 'people')}, "
        f"{count(len(problem.days), 'class day', 'class days')} of {order.minutes} minutes, "
        f"with room for {count(problem.places, 'strand', 'strands')} each"
    )
    yield f"The aim: {', '.join(order.aim)}"


def _write_days(view: WeeksView) -> Iterator[str]:
    schedule = view.planned.found.schedule
    for number, day in enumerate(view.planned.problem.days):
        strands = ", ".join(schedule.strands[number]) or "nothing is left to work on"
        yield f"{_say_class_day(day)}  {strands}"
        for person in view.planned.problem.people:
            here = [turn.lesson_id for turn in schedule.turns[person] if turn.day == number]
            yield f"    {person}: {', '.join(here) or NOTHING_NEW}"


def _say_class_day(day: ClassDay) -> str:
    retest = "  RETEST" if day.is_retest else ""
    return f"{Weekday.of(day.day)} {say_day(day.day)}, week {day.week}{retest}"


def _write_reached(view: WeeksView) -> Iterator[str]:
    planned = view.planned
    reached = planned.found.schedule.reached
    yield f"Expected to reach the aim: {len(reached)} of {len(planned.problem.people)}"
    for person in sorted(reached, key=lambda each: (reached[each], each)):
        number = reached[person]
        when = say_day(planned.problem.days[number].day) if number >= 0 else "there already"
        yield f"  {say_person(view, person)}: {when}"
    yield ""


def _write_shortfalls(view: WeeksView) -> Iterator[str]:
    if not view.planned.shortfalls:
        return
    yield "Not expected to reach it by the last class:"
    for shortfall in view.planned.shortfalls:
        why = say_shortfall(view, shortfall)
        yield f"  {say_person(view, shortfall.person_id)}: {why}"
        for line in list_help(shortfall, view.planned.order.minutes):
            yield f"    {line}"
    yield ""


def _say_hindered(course: Course, hindered: Hindered) -> str:
    if hindered.hindrance is Hindrance.OTHER_STRAND:
        return (
            f'{hindered.lesson_id} is on the way, and its strand "{hindered.strand_id}" is not '
            "worked on"
        )
    why = "; ".join(say_barrier(course, barrier) for barrier in hindered.barriers)
    return f"{hindered.lesson_id} is on the way, and barred: {why}"
