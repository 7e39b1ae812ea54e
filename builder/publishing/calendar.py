"""Practice days and the next retest as a calendar file (RFC 5545, iCalendar, 2009).

A phone may show a calendar on a locked screen, so it names no lesson, no measure, no condition and
nobody. Each event keeps its UID, so that a new file moves and calls off what an older one set.
"""

import hashlib
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import UTC, date, datetime, time, timedelta
from zoneinfo import ZoneInfo

from icalendar import Calendar, Event

from builder import __version__
from builder.errors import BuilderError
from builder.language import Language
from builder.planning.home_plan import HomePlan
from builder.planning.overview import PersonOverview
from builder.publishing.build_time import read_build_time
from builder.records.program import Program
from builder.records.studio import StudioSettings

_CANCELLED = "CANCELLED"
_CONFIRMED = "CONFIRMED"
_RETEST_MINUTES = 15
_RETEST = "retest"
_PRACTICE = "practice"
_UID_SIGNS = 32
_BEGIN, _END = b"BEGIN:VEVENT", b"END:VCALENDAR"
_REMEMBERED = timedelta(weeks=4)
"""How long days before a plan stay in its file: a sheet made ahead may be made again (ours)."""
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


@dataclass(frozen=True, slots=True)
class _Given:
    """One event as it was given out before."""

    event: Event
    day: date
    stamp: datetime
    sequence: int


def find_stamp(overview: PersonOverview, program: Program, epoch: str | None) -> datetime:
    """Return when the data is from: SOURCE_DATE_EPOCH, else the newest record up to the day."""
    told = read_build_time(epoch)
    if told:
        return told
    person = overview.person.id
    days = [row.day for row in program.results_by_person[person]]
    days += [row.day for row in program.attendance_by_person[person]]
    found = [day for day in days if day <= overview.day]
    return datetime.combine(max(found, default=overview.day), time(), UTC)


def write_calendar(order: CalendarOrder, earlier: bytes = b"") -> bytes:
    """Write the events; those of the earlier file that are no more are called off.

    Days before the plan's first one are past, and are left as they were. What hasn't changed stays
    as it is to the byte; what has gets the next sequence number, and no stamp before the last one.
    Raises BuilderError for an earlier file that can't be read.
    """
    before = _read_events(earlier)
    stamp = max((order.stamp, *(given.stamp for given in before.values())))
    slots = {slot.uid: slot for slot in _list_slots(order)}
    events = [_renew(slot, order, before.get(slot.uid), stamp) for slot in slots.values()]
    for uid, given in before.items():
        if uid not in slots and _is_kept(uid, given, order):
            is_past = given.day < order.plan.span.first_day
            events.append(given.event if is_past else _call_off(given, stamp))
    calendar = Calendar()
    calendar.add("prodid", f"-//tempoleaf//{__version__}//EN")
    calendar.add("version", "2.0")
    calendar.add("method", "PUBLISH")
    for event in sorted(events, key=lambda event: (_find_day(event), str(event["UID"]))):
        calendar.add_component(event)
    first = min(map(_find_day, events), default=order.plan.span.first_day)
    calendar.add_missing_timezones(
        first_date=date(first.year, 1, 1),
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
        yield _Slot(_name_retest(order), plan.retest.day, title, _RETEST_MINUTES)


def _name(order: CalendarOrder, kind: str, slot: str) -> str:
    """Return a UID that is the same for a studio, person, kind and slot, and tells none of them."""
    said = "\0".join((order.studio.name, order.plan.person_id, kind, slot))
    return f"{hashlib.sha256(said.encode()).hexdigest()[:_UID_SIGNS]}@tempoleaf"


def _name_retest(order: CalendarOrder) -> str:
    return _name(order, _RETEST, "next")


def _renew(slot: _Slot, order: CalendarOrder, given: _Given | None, stamp: datetime) -> Event:
    """Write an event: as it was given out where it says the same, else one that outranks it."""
    if given is None:
        return _write(slot, order, stamp, 0)
    same = _write(slot, order, given.stamp, given.sequence)
    if same.to_ical() == given.event.to_ical():
        return same
    return _write(slot, order, stamp, given.sequence + 1)


def _write(slot: _Slot, order: CalendarOrder, stamp: datetime, sequence: int) -> Event:
    event = Event()
    event.add("uid", slot.uid)
    event.add("dtstamp", stamp)
    event.add("last-modified", stamp)
    event.add("sequence", sequence)
    event.add("status", _CONFIRMED)
    event.add("summary", slot.title)
    event.add("transp", "TRANSPARENT")
    event.add("class", "PRIVATE")
    if order.at is None or slot.uid == _name_retest(order):  # a class has its own hour
        event.add("dtstart", slot.day)
        event.add("dtend", slot.day + timedelta(days=1))
    else:
        zone = ZoneInfo(order.studio.timezone) if order.studio.timezone else None
        event.add("dtstart", datetime.combine(slot.day, order.at, zone))
        event.add("duration", timedelta(minutes=slot.minutes))
    return event


def _is_kept(uid: str, given: _Given, order: CalendarOrder) -> bool:
    """Tell whether an event that is no more stays in the file.

    That of measuring again does however old it is: its UID comes back, and must outrank it.
    """
    return given.day >= order.plan.span.first_day - _REMEMBERED or uid == _name_retest(order)


def _call_off(given: _Given, stamp: datetime) -> Event:
    event = given.event.copy()
    if str(event.get("STATUS")) != _CANCELLED:
        changes = {"STATUS": _CANCELLED, "SEQUENCE": given.sequence + 1}
        for name, value in {**changes, "DTSTAMP": stamp, "LAST-MODIFIED": stamp}.items():
            event.pop(name, None)
            event.add(name, value)
    return event


def _find_day(event: Event) -> date:
    start = event.start
    return start.date() if isinstance(start, datetime) else start


def _read_events(text: bytes) -> dict[str, _Given]:
    """Return the events of a file that this tool made, by UID."""
    if not text:
        return {}
    try:
        calendar = Calendar.from_ical(text)
        events = [event for event in calendar.walk("VEVENT") if isinstance(event, Event)]
        if not text.rstrip().endswith(_END) or len(events) != text.count(_BEGIN):
            raise ValueError("a part of the file is gone")
        return {str(event["UID"]): _take(event) for event in events}
    except (ValueError, KeyError, TypeError, AttributeError) as error:  # as the library has it
        raise BuilderError(
            "the calendar from before can't be read, so what it set can't be called off",
            "put the file back as it was made, or move it away and tell the person",
        ) from error


def _take(event: Event) -> _Given:
    stamp, sequence = event.DTSTAMP, event["SEQUENCE"]
    if not isinstance(stamp, datetime) or not isinstance(sequence, int):
        raise ValueError("a stamp or a number is none")
    return _Given(event, _find_day(event), stamp, sequence)
