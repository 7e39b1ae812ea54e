"""Contacts: what is left when hands and feet go."""

from builder.course.figure import Contacts, Sole

ALL_FOURS = Contacts(
    rests_on=("left-knee", "right-knee"),
    tilts_on=("left-hand", "right-hand"),
    soles={"left": Sole.TOES, "right": Sole.TOES},
    hands={"left": "planted", "right": "planted"},
)


def test_a_free_hand_carries_nothing_and_lies_on_nothing() -> None:
    left = ALL_FOURS.without(frozenset({"left-hand"}))
    assert left.tilts_on == ("right-hand",)
    assert left.hands == {"right": "planted"}
    assert left.soles == ALL_FOURS.soles
    assert left.rests_on == ALL_FOURS.rests_on


def test_a_free_foot_comes_down_nowhere() -> None:
    standing = Contacts(
        rests_on=("left-foot", "right-foot"), soles={"left": Sole.LEVEL, "right": Sole.LEVEL}
    )
    left = standing.without(frozenset({"right-foot"}))
    assert left.rests_on == ("left-foot",)
    assert left.soles == {"left": Sole.LEVEL}


def test_nothing_free_leaves_all_contacts() -> None:
    assert ALL_FOURS.without(frozenset()) == ALL_FOURS
