"""Practice days and the next retest as a calendar file (RFC 5545, iCalendar, 2009).

A phone may show a calendar on a locked screen, so it names no lesson, no measure, no condition and
nobody. Each event keeps its UID, so that a new file moves and calls off what an older one set.
"""

import hashlib
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from datetime import UTC, date, datetime, time, timedelta
from zoneinfo import ZoneInfo

from icalendar import Calendar, Event

from builder import __version__
from builder.errors import BuilderError
from builder.language import Language
from builder.planning.home_plan import HomePlan
from builder.planning.overview import PersonOverview
from builder.records.program import Program
from builder.records.studio import StudioSettings

_CANCELLED = "CANCELLED"
_CONFIRMED = "CONFIRMED"
_RETEST_MINUTES = 15
_RETEST = "retest"
_PRACTICE = "practice"
_UID_SIGNS = 32
_ZONE_YEARS = 2
"""How far ahead the rules of the time zone are written out."""


@dataclass(frozen=True, slots=True)
class CalendarOrder:
    """What a calendar is made from."""

    plan: HomePlan
    studio: StudioSettings
    language: Language
    stamp: datetime
    """When its data is from, in UTC; never the clock."""
    at: time | None = None
    """When practice begins each day; whole days without it."""


@dataclass(frozen=True, slots=True)
class _Slot:
    """One event as it is to be."""

    uid: str
    day: date
    title: str
    minutes: int
    status: str = _CONFIRMED
    sequence: int = 0


def find_stamp(overview: PersonOverview, program: Program, epoch: str | None) -> datetime:
    """Return when the data is from: SOURCE_DATE_EPOCH, else the newest record up to the day."""
    if epoch:
        try:
            return datetime.fromtimestamp(int(epoch), UTC)
        except (ValueError, OverflowError, OSError) as error:
            raise BuilderError(
                f'SOURCE_DATE_EPOCH is "{epoch}"', "give seconds since 1970, or unset it"
            ) from error
    person = overview.person.id
    days = [row.day for row in program.results_by_person[person]]
    days += [row.day for row in program.attendance_by_person[person]]
    found = [day for day in days if day <= overview.day]
    return datetime.combine(max(found, default=overview.day), time(), UTC)


def write_calendar(order: CalendarOrder, earlier: bytes = b"") -> bytes:
    """Write the events; those of the earlier file that are no more are called off.

    Days before the plan's first one are past, and are left as they are. What hasn't changed keeps
    its sequence number, what has gets the next one. Raises BuilderError for an earlier file that
    can't be read.
    """
    before = _read_events(earlier)
    slots = {slot.uid: slot for slot in _list_slots(order)}
    gone = [
        _call_off(event)
        for uid, event in before.items()
        if uid not in slots and _find_day(event) >= order.plan.span.first_day
    ]
    calendar = Calendar()
    calendar.add("prodid", f"-//tempoleaf//{__version__}//EN")
    calendar.add("version", "2.0")
    calendar.add("method", "PUBLISH")
    for slot in sorted((*slots.values(), *gone), key=lambda slot: (slot.day, slot.uid)):
        calendar.add_component(_make_event(slot, order, before.get(slot.uid)))
    if order.at is not None and order.studio.timezone:
        calendar.add_missing_timezones(
            first_date=date(order.plan.span.first_day.year, 1, 1),
            last_date=date(order.plan.span.last_day.year + _ZONE_YEARS, 1, 1),
        )
    return bytes(calendar.to_ical())


def _list_slots(order: CalendarOrder) -> Iterator[_Slot]:
    plan, say = order.plan, order.language.say
    for day in plan.days:
        minutes = plan.count_minutes(day)
        title = say("Practice, about {minutes} min", minutes=order.language.number(minutes))
        yield _Slot(_name(order, _PRACTICE, day.isoformat()), day, title, minutes)
    if plan.retest:
        title = (
            say("A look back with your coach")
            if plan.retest.is_class_day
            else say("From today on: a look back with your coach")
        )
        uid = _name(order, _RETEST, "next")
        yield _Slot(uid, plan.retest.day, title, _RETEST_MINUTES)


def _name(order: CalendarOrder, kind: str, slot: str) -> str:
    """Return a UID that is the same for a studio, person, kind and slot, and tells none of them."""
    said = "\0".join((order.studio.name, order.plan.person_id, kind, slot))
    return f"{hashlib.sha256(said.encode()).hexdigest()[:_UID_SIGNS]}@tempoleaf"


def _make_event(slot: _Slot, order: CalendarOrder, before: Event | None) -> Event:
    event = _write(slot, order)
    if before is None:
        return event
    sequence = int(before.get("SEQUENCE", 0))
    event = _write(replace(slot, sequence=sequence), order)
    if _is_alike(event, before):
        return event
    return _write(replace(slot, sequence=sequence + 1), order)


def _write(slot: _Slot, order: CalendarOrder) -> Event:
    event = Event()
    event.add("uid", slot.uid)
    event.add("dtstamp", order.stamp)
    event.add("last-modified", order.stamp)
    event.add("sequence", slot.sequence)
    event.add("status", slot.status)
    event.add("summary", slot.title)
    event.add("transp", "TRANSPARENT")
    event.add("class", "PRIVATE")
    is_retest = slot.uid == _name(order, _RETEST, "next")
    if order.at is None or is_retest:  # a class has its own hour
        event.add("dtstart", slot.day)
        event.add("dtend", slot.day + timedelta(days=1))
    else:
        zone = ZoneInfo(order.studio.timezone) if order.studio.timezone else None
        event.add("dtstart", datetime.combine(slot.day, order.at, zone))
        event.add("duration", timedelta(minutes=slot.minutes))
    return event


def _is_alike(event: Event, before: Event) -> bool:
    """Tell whether two events say the same, whenever they were written."""
    return _strip(event) == _strip(before)


def _strip(event: Event) -> Mapping[str, bytes]:
    times = ("DTSTAMP", "LAST-MODIFIED")
    return {
        name: value.to_ical() if hasattr(value, "to_ical") else str(value).encode()
        for name, value in event.items()
        if name not in times
    }


def _call_off(event: Event) -> _Slot:
    minutes = event.duration
    return _Slot(
        str(event["UID"]),
        _find_day(event),
        str(event.get("SUMMARY", "")),
        round(minutes.total_seconds() / 60),
        _CANCELLED,
    )


def _find_day(event: Event) -> date:
    start = event.start
    return start.date() if isinstance(start, datetime) else start


def _read_events(text: bytes) -> dict[str, Event]:
    """Return the events of a file that this tool made, by UID."""
    if not text:
        return {}
    try:
        calendar = Calendar.from_ical(text)
        found = [event for event in calendar.walk("VEVENT") if isinstance(event, Event)]
        events = {str(event["UID"]): event for event in found}
        for event in events.values():
            _find_day(event)
    except (ValueError, KeyError) as error:
        raise BuilderError(
            "the calendar from before can't be read, so what it set can't be called off",
            "put the file back as it was made, or move it away and tell the person",
        ) from error
    return events
