"""Conditions of sheets against what Media Queries 4 (W3C) says of them."""

import pytest

from builder.publishing.proof.safety.styles.conditions import Condition, Screen, list_screens

PHONE = Screen(is_paper=False, width_px=360, is_dark=False)
WIDE = Screen(is_paper=False, width_px=1280, is_dark=True)
PAPER = Screen(is_paper=True, width_px=720, is_dark=False)


@pytest.mark.parametrize(
    ("text", "phone", "wide", "paper"),
    [
        ("all", True, True, True),
        ("print", False, False, True),
        ("screen and (min-width: 60em)", False, True, False),
        ("not print", True, True, False),
        ("only screen", True, True, False),
        ("not screen and (min-width: 60em)", True, False, True),
        ("print, (max-width: 400px)", True, False, True),
        ("(400px <= width <= 900px)", False, False, True),
        ("(width > 1000px)", False, True, False),
        ("(min-width: 300px) and (max-width: 400px)", True, False, False),
        ("(width < 400px) or (width > 1000px)", True, True, False),
        ("not (prefers-color-scheme: dark)", True, False, True),
        ("((min-width: 1px))", True, True, True),
    ],
)
def test_conditions_hold_where_the_standard_says(
    text: str, phone: bool, wide: bool, paper: bool
) -> None:
    condition = Condition(text)
    assert [condition.holds_on(screen) for screen in (PHONE, WIDE, PAPER)] == [phone, wide, paper]


@pytest.mark.parametrize("text", ["(hover)", "(min-height: 9px)", "(width: 1quark)", "screen or x"])
def test_what_is_not_known_neither_holds_nor_fails(text: str) -> None:
    assert Condition(text).holds_on(PHONE) is None


def test_an_unknown_part_spoils_only_what_hangs_on_it() -> None:
    assert Condition("print and (hover)").holds_on(PHONE) is False
    assert Condition("screen, (hover)").holds_on(PHONE) is True


def test_screens_lie_on_both_sides_of_every_limit() -> None:
    condition = Condition("(min-width: 600px) and (max-width: 601px)")
    answers = [condition.holds_on(screen) for screen in list_screens([condition])]
    assert True in answers
    assert False in answers
