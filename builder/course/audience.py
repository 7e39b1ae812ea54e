"""Who a card is for."""

from enum import StrEnum


class Audience(StrEnum):
    """Who a card is for."""

    CLIENT = "client"
    COACH = "coach"
    """With the coach's notes on the back; goes into the coach folder only."""
