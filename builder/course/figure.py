"""Figures: what a lesson's drawing shows, before any of it is drawn."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from enum import StrEnum

from builder.course.pose import Pose


class View(StrEnum):
    """Where a figure is seen from."""

    SIDE = "side"
    ABOVE = "above"
    FRONT = "front"
    BACK = "back"
    CORNER = "corner"


class Sole(StrEnum):
    """How a foot comes down to the floor."""

    FLAT = "flat"
    """The knee bends until the whole sole is down."""
    TOES = "toes"
    """The knee bends until the toes are down, as in kneeling."""
    LEVEL = "level"
    """The leg stays as it is and only the sole turns level, as in standing."""


class BreathPlace(StrEnum):
    """Where a breath shows."""

    BELLY = "belly"
    SIDES = "sides"
    LEFT = "left"
    RIGHT = "right"
    BACK = "back"
    CHEST = "chest"


@dataclass(frozen=True, slots=True)
class Contacts:
    """What carries a body, and what its hands and feet lie on; sides are left and right."""

    rests_on: tuple[str, ...] = ("trunk",)
    """Parts of which the lowest carries the body."""
    tilts_on: tuple[str, ...] = ()
    """Hands that the body leans on: it tilts until a straight arm reaches the floor."""
    on_seat: bool = False
    """`rests_on` lies on a chair's seat instead of the floor."""
    soles: Mapping[str, Sole] = field(default_factory=dict)
    hands: Mapping[str, str] = field(default_factory=dict)
    """The place that each palm lies on."""

    def __hash__(self) -> int:
        soles, hands = frozenset(self.soles.items()), frozenset(self.hands.items())
        return hash((self.rests_on, self.tilts_on, self.on_seat, soles, hands))

    def without(self, free: frozenset[str]) -> "Contacts":
        """Return the contacts that are left when hands and feet such as ``left-hand`` go.

        A leg whose foot is free doesn't kneel either.
        """
        gone = free | {part.replace("-foot", "-knee") for part in free}
        return Contacts(
            tuple(part for part in self.rests_on if part not in gone),
            tuple(part for part in self.tilts_on if part not in free),
            self.on_seat,
            {side: sole for side, sole in self.soles.items() if f"{side}-foot" not in free},
            {side: spot for side, spot in self.hands.items() if f"{side}-hand" not in free},
        )


@dataclass(frozen=True, slots=True)
class Stance:
    """One picture of a body: its base pose by name, its angles and its contacts."""

    base: str
    pose: Pose
    contacts: Contacts
    press: tuple[str, ...] = ()
    """Hands and knees that press without moving, such as ``left-hand``."""


@dataclass(frozen=True, slots=True)
class Figure:
    """What a lesson shows: a body at the end of the in-breath and of the out-breath."""

    view: View
    inhale: Stance
    exhale: Stance
    breath: tuple[BreathPlace, ...]
    props: Mapping[str, str]
    """Prop id to how it lies."""
    has_move_arrows: bool = True
    """Whether arrows show what moves; for a walk they would say to step back."""
