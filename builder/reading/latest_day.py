"""The newest day that anything can be dated, wherever the machine stands."""

from datetime import date, datetime, timedelta, timezone

_EASTERNMOST = timezone(timedelta(hours=14))
"""Where each day begins first."""


def find_latest_day() -> date:
    """Return the day that has begun somewhere on earth."""
    return datetime.now(_EASTERNMOST).date()
