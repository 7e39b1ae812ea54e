"""Days as a coach's lists write them."""

from datetime import date

_MONTHS = ("Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec")


def say_day(day: date) -> str:
    """Return a day such as ``7 Sep 2026``, the same on every machine."""
    return f"{day.day} {_MONTHS[day.month - 1]} {day.year}"
