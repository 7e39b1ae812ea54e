"""Clauses on what a body does: each whole, so that another language can order and bend its words.

English stands here; ``move_words.py`` says them. A colon or a comma goes before or between them,
never a word that would change how they run.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from enum import Enum

from builder.language import mark


class Way(Enum):
    """Where a limb goes, as the body has it."""

    UP = "up"
    DOWN = "down"
    FORWARD = "forward"
    BACK = "back"
    PAST_HEAD = "past the head"
    FROM_HEAD = "back from beyond the head"
    NEARER = "nearer to the trunk"
    AWAY = "away from the trunk"


@dataclass(frozen=True, slots=True)
class Sided:
    """What is said of the left, of the right and of both."""

    left: str
    right: str
    both: str

    def of(self, sides: Sequence[str]) -> str:
        """Return what is said of one side, or of both."""
        if len(sides) > 1:
            return self.both
        return self.left if sides[0] == "left" else self.right


LIMBS: Mapping[tuple[str, Way], Sided] = {
    ("arm", Way.UP): Sided(
        mark("the left arm lifts"),
        mark("the right arm lifts"),
        mark("both arms lift"),
    ),
    ("arm", Way.DOWN): Sided(
        mark("the left arm lowers"),
        mark("the right arm lowers"),
        mark("both arms lower"),
    ),
    ("arm", Way.FORWARD): Sided(
        mark("the left arm moves forward"),
        mark("the right arm moves forward"),
        mark("both arms move forward"),
    ),
    ("arm", Way.BACK): Sided(
        mark("the left arm moves back"),
        mark("the right arm moves back"),
        mark("both arms move back"),
    ),
    ("arm", Way.PAST_HEAD): Sided(
        mark("the left arm reaches past the head"),
        mark("the right arm reaches past the head"),
        mark("both arms reach past the head"),
    ),
    ("arm", Way.FROM_HEAD): Sided(
        mark("the left arm comes back"),
        mark("the right arm comes back"),
        mark("both arms come back"),
    ),
    ("leg", Way.UP): Sided(
        mark("the left leg lifts"),
        mark("the right leg lifts"),
        mark("both legs lift"),
    ),
    ("leg", Way.DOWN): Sided(
        mark("the left leg lowers"),
        mark("the right leg lowers"),
        mark("both legs lower"),
    ),
    ("leg", Way.FORWARD): Sided(
        mark("the left leg moves forward"),
        mark("the right leg moves forward"),
        mark("both legs move forward"),
    ),
    ("leg", Way.BACK): Sided(
        mark("the left leg moves back"),
        mark("the right leg moves back"),
        mark("both legs move back"),
    ),
    ("leg", Way.NEARER): Sided(
        mark("the left leg comes nearer"),
        mark("the right leg comes nearer"),
        mark("both legs come nearer"),
    ),
    ("leg", Way.AWAY): Sided(
        mark("the left leg moves away"),
        mark("the right leg moves away"),
        mark("both legs move away"),
    ),
}
KNEES_OPEN = Sided(
    mark("the left knee opens outwards"),
    mark("the right knee opens outwards"),
    mark("both knees move apart"),
)
KNEES_CLOSE = Sided(
    mark("the left knee comes back in"),
    mark("the right knee comes back in"),
    mark("both knees ease in"),
)
TIPS = (mark("the body tips forward"), mark("the body straightens"))
ROLLS = (mark("the body rolls to its left"), mark("the body rolls to its right"))
TURNS = (mark("the chest turns to its left"), mark("the chest turns to its right"))
CURLS = (mark("the back rounds"), mark("the back sinks"))
TUCKS = (mark("the tail tucks"), mark("the tail rolls back"))
"""Of an angle that grows, and of one that shrinks; the same of the four above."""

HANDS = Sided(mark("the left hand"), mark("the right hand"), mark("both hands"))
THIGHS = Sided(mark("the left thigh"), mark("the right thigh"), mark("both thighs"))
KNEES = Sided(mark("the left knee"), mark("the right knee"), mark("both knees"))
"""These are who presses: the subject of the next four, alone or joined."""
PRESSES_BALL = (mark("{who} presses the ball"), mark("{who} press the ball"))
PRESSES_OUT = (mark("{who} presses outwards"), mark("{who} press outwards"))
"""Of one and of several."""
