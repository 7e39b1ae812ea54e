"""Calendar files: RFC 5545 as two libraries read it, updates, and nothing for a stranger's eyes."""

from collections.abc import Iterable
from dataclasses import replace
from datetime import UTC, date, datetime, time, timedelta
from io import StringIO
from zoneinfo import ZoneInfo

import pytest
import vobject  # type: ignore[import-untyped]
from dateutil.tz import tzical  # type: ignore[import-untyped]
from icalendar import Calendar, Event

from builder.errors import BuilderError
from builder.language import language_of
from builder.planning.home_days import Span
from builder.planning.home_plan import HomeLesson, HomePlan, NextRetest
from builder.planning.overview import survey_person
from builder.publishing.calendar import CalendarOrder, find_stamp, write_calendar
from builder.records.program import Program
from builder.records.studio import StudioSettings, take_from_course
from builder.sums.practice import Kind
from tests.planning.rows import do, on
from tests.planning.starter import make_person, read_starter

MONDAY = date(2026, 10, 19)
"""The week in which clocks go back in Britain: Sunday 25 October 2026 (tz database)."""
STAMP = datetime(2026, 10, 18, tzinfo=UTC)
DAYS = tuple(MONDAY + timedelta(days=offset) for offset in (0, 2, 4, 7, 9))


def make_plan(days: Iterable[date] = DAYS, retest: date | None = None) -> HomePlan:
    lesson = HomeLesson("belly-breath", Kind.STRETCH, tuple(days), 6, 30.0, None, ())
    measured = NextRetest(retest, ()) if retest else None
    return HomePlan("C5", Span(MONDAY, 2), (), (lesson,), (), None, (), measured)


def make_studio(zone: str = "Europe/London") -> StudioSettings:
    studio = take_from_course(read_starter())
    return StudioSettings(studio.name, studio.contact, studio.colours, "a4", "en-GB", timezone=zone)


def write(
    days: Iterable[date] = DAYS,
    earlier: bytes = b"",
    *,
    at: time | None = None,
    retest: date | None = None,
    zone: str = "Europe/London",
    stamp: datetime = STAMP,
    first: date = MONDAY,
) -> bytes:
    plan = replace(make_plan(days, retest), span=Span(first, 2))
    order = CalendarOrder(plan, make_studio(zone), language_of("en-GB"), stamp, at)
    return write_calendar(order, earlier)


def read(text: bytes) -> list[Event]:
    return [each for each in Calendar.from_ical(text).walk("VEVENT") if isinstance(each, Event)]


def test_a_second_library_reads_the_same_days() -> None:
    found = vobject.readOne(write().decode())
    assert tuple(event.dtstart.value for event in found.vevent_list) == DAYS


def test_lines_are_as_rfc_5545_has_them() -> None:
    """Section 3.1: lines end with CRLF and have at most 75 octets without it."""
    order = CalendarOrder(make_plan(), make_studio(), language_of("es"), STAMP, time(18))
    text = write_calendar(order)
    assert text.count(b"\n") == text.count(b"\r\n")
    assert max(map(len, text.split(b"\r\n"))) <= 75


def test_every_event_has_what_rfc_5545_asks_for() -> None:
    """Section 3.6.1: UID and DTSTAMP, once each; 3.6: PRODID and VERSION."""
    text = write(retest=MONDAY)
    calendar = Calendar.from_ical(text)
    assert {"PRODID", "VERSION"} <= set(calendar)
    events = read(text)
    assert all({"UID", "DTSTAMP", "DTSTART", "SEQUENCE"} <= set(event) for event in events)
    assert len({event["UID"] for event in events}) == len(events) == len(DAYS) + 1


def test_without_a_time_whole_days_are_set() -> None:
    assert [event.start for event in read(write())] == list(DAYS)


def test_practice_stays_at_its_hour_when_clocks_change() -> None:
    text = write(at=time(18, 30))
    zones = Calendar.from_ical(text).walk("VTIMEZONE")
    assert [str(zone["TZID"]) for zone in zones] == ["Europe/London"]
    starts = [event.start for event in read(text)]
    assert [(start.date(), start.time()) for start in starts] == [
        (day, time(18, 30)) for day in DAYS
    ]
    assert [start.utcoffset() for start in starts] == [
        *(timedelta(hours=1) for _ in range(3)),
        *(timedelta(0) for _ in range(2)),
    ]
    second = vobject.readOne(text.decode()).vevent_list
    assert [event.dtstart.value.utcoffset() for event in second] == [
        start.utcoffset() for start in starts
    ]


def test_without_a_zone_the_hour_is_the_readers_own() -> None:
    assert all(event.start.tzinfo is None for event in read(write(at=time(7), zone="")))


def test_the_same_again_changes_no_byte() -> None:
    first = write(retest=DAYS[1])
    assert write(earlier=first, retest=DAYS[1]) == first


def test_a_day_that_is_no_more_is_called_off_and_stays_so() -> None:
    second = write(DAYS[:3], write())
    events = {event.start: event for event in read(second)}
    assert [str(events[day]["STATUS"]) for day in DAYS] == [
        *["CONFIRMED"] * 3,
        *["CANCELLED"] * 2,
    ]
    assert [int(events[day]["SEQUENCE"]) for day in DAYS] == [0, 0, 0, 1, 1]
    assert write(DAYS[:3], second) == second


def test_a_day_that_comes_back_outranks_its_cancelling() -> None:
    third = write(DAYS, write(DAYS[:3], write()))
    event = {event.start: event for event in read(third)}[DAYS[4]]
    assert (str(event["STATUS"]), int(event["SEQUENCE"])) == ("CONFIRMED", 2)


def test_days_before_the_new_sheet_are_left_as_they_were() -> None:
    text = write(DAYS[3:], write(), first=DAYS[3], stamp=STAMP + timedelta(days=9))
    assert [event.to_ical() for event in read(text)] == [event.to_ical() for event in read(write())]


def test_days_of_long_ago_are_no_longer_told() -> None:
    later = MONDAY + timedelta(weeks=8)
    assert [event.start for event in read(write((later,), write(), first=later))] == [later]


def test_a_sheet_made_ahead_and_made_again_calls_off_what_is_no_more() -> None:
    ahead = write(DAYS[3:], write(), first=DAYS[3])
    again = {event.start: event for event in read(write((*DAYS[:2], *DAYS[3:]), ahead))}
    assert (str(again[DAYS[2]]["STATUS"]), int(again[DAYS[2]]["SEQUENCE"])) == ("CANCELLED", 1)
    assert int(again[DAYS[1]]["SEQUENCE"]) == 0


def test_another_zone_outranks_what_was_set_in_the_wrong_one() -> None:
    """RFC 5546, section 2.1.4: a change of DTSTART raises SEQUENCE."""
    first = write(at=time(18), zone="Europe/Berlin")
    events = read(write(at=time(18), zone="Asia/Kolkata", earlier=first))
    assert {int(event["SEQUENCE"]) for event in events} == {1}
    assert {event.start.utcoffset() for event in events} == {timedelta(hours=5, minutes=30)}


def test_stamps_never_go_back() -> None:
    """RFC 5545, 3.8.7.2: of two with one SEQUENCE the later stamp holds."""
    text = write(DAYS[:2], write(), stamp=STAMP - timedelta(days=5))
    assert {event["DTSTAMP"].dt for event in read(text)} == {STAMP}


def test_a_whole_day_that_is_called_off_stays_a_whole_day() -> None:
    events = read(write(DAYS[:4], write(), at=time(18)))
    gone = next(event for event in events if str(event["STATUS"]) == "CANCELLED")
    assert (gone.start, gone.duration) == (DAYS[4], timedelta(days=1))


def test_measuring_again_after_a_time_without_outranks_the_last_time() -> None:
    moved = write(earlier=write(retest=DAYS[0]), retest=DAYS[1])
    later = MONDAY + timedelta(weeks=8)
    without = write((), moved, first=later)
    back = read(write((), without, first=later, retest=later))
    assert [(event.start, int(event["SEQUENCE"])) for event in back] == [(later, 2)]


def test_measuring_again_moves_and_keeps_its_name() -> None:
    first = write(retest=DAYS[0])
    second = write(earlier=first, retest=DAYS[3])
    moved = [event for event in read(second) if int(event["SEQUENCE"]) == 1]
    assert [event.start for event in moved] == [DAYS[3]]


def test_with_no_lessons_left_all_that_was_to_come_is_called_off() -> None:
    events = read(write((), write()))
    assert {str(event["STATUS"]) for event in events} == {"CANCELLED"}
    assert len(events) == len(DAYS)


@pytest.mark.parametrize("word", [b"C5", b"belly", b"Saltmarsh", b"breath", b"lesson"])
def test_a_locked_screen_tells_nothing(word: bytes) -> None:
    assert word not in write(at=time(8), retest=MONDAY).replace(b"\r\n ", b"")


@pytest.mark.parametrize(
    ("line", "other"),
    [
        (b"SEQUENCE:0", b"SEQUENCE:x"),
        (b"SEQUENCE:0", b"SEQUENCE:0\r\nSEQUENCE:0"),
        (b"DTSTART;VALUE=DATE:20261019", b"DTSTART:20261345"),
        (b"END:VCALENDAR", b""),
    ],
)
def test_an_earlier_file_that_was_changed_stops_it(line: bytes, other: bytes) -> None:
    assert line in write()
    with pytest.raises(BuilderError, match="can't be read"):
        write(earlier=write().replace(line, other, 1))


@pytest.mark.parametrize("hour", [time(2, 30), time(23, 45)])
@pytest.mark.parametrize(
    ("zone", "first"),
    [
        ("Europe/Berlin", date(2026, 12, 20)),
        ("Europe/Berlin", date(2027, 3, 20)),
        ("America/New_York", date(2026, 10, 25)),
        ("Asia/Kolkata", date(2026, 12, 24)),
        ("Pacific/Apia", date(2026, 12, 24)),
    ],
)
def test_three_readers_find_the_same_moment(zone: str, first: date, hour: time) -> None:
    """By the tz database, over a year's end and both changes of the clock."""
    days = [first + timedelta(days=offset) for offset in range(14)]
    text = write(days, at=hour, zone=zone, first=first)
    moments = [datetime.combine(day, hour, ZoneInfo(zone)).astimezone(UTC) for day in days]
    assert [event.start.astimezone(UTC) for event in read(text)] == moments
    second = vobject.readOne(text.decode()).vevent_list
    assert [event.dtstart.value.astimezone(UTC) for event in second] == moments
    rules = tzical(StringIO(text.decode().replace("\r\n ", "").replace("\r\n", "\n"))).get()
    third = [datetime.combine(day, hour, rules).astimezone(UTC) for day in days]
    assert third == moments


def test_its_time_is_the_newest_record_or_the_one_given() -> None:
    person = make_person()
    program = Program({person.id: person}, (), tuple(do("belly-breath", "rr")))
    overview = survey_person(read_starter(), program, person, on(30))
    newest = datetime.combine(on(2), time(), UTC)
    assert find_stamp(overview, program, None) == newest
    assert find_stamp(overview, program, "86400") == datetime(1970, 1, 2, tzinfo=UTC)
    with pytest.raises(BuilderError, match="SOURCE_DATE_EPOCH"):
        find_stamp(overview, program, "soon")
