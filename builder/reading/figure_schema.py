"""The schema of a lesson's figure: angles in degrees, 0 as in standing straight."""

from typing import Annotated, Literal

from pydantic import Field

from builder.reading.part import Part

Degrees = Annotated[float, Field(ge=-180, le=180)]
Breath = Literal["belly", "sides", "left", "right", "back", "chest"]
Presser = Literal["left-hand", "right-hand", "left-knee", "right-knee"]
Limb = Literal["left-hand", "right-hand", "left-foot", "right-foot"]


class LiePart(Part):
    """How the whole body lies in the room."""

    lean: Degrees | None = Field(None, description="90 face down, -90 on the back")
    spin: Degrees | None = None
    facing: Degrees | None = None


class SpinePart(Part):
    """Pelvis, back, neck and head."""

    tuck: Degrees | None = None
    curl: Degrees | None = None
    turn: Degrees | None = None
    nod: Degrees | None = None
    look: Degrees | None = None


class ArmPart(Part):
    """One arm."""

    lift: Degrees | None = Field(None, description="90 straight ahead, 180 overhead")
    out: Degrees | None = None
    turn: Degrees | None = None
    elbow: Degrees | None = None
    roll: Degrees | None = None
    wrist: Degrees | None = None


class LegPart(Part):
    """One leg."""

    hip: Degrees | None = None
    out: Degrees | None = None
    turn: Degrees | None = None
    knee: Degrees | None = None
    ankle: Degrees | None = None


class HandsPart(Part):
    """Where each palm lies."""

    left: str | None = None
    right: str | None = None


class JointsPart(Part):
    """Angles that differ from the base pose; ``arms`` and ``legs`` speak for both sides."""

    lie: LiePart | None = None
    spine: SpinePart | None = None
    arms: ArmPart | None = None
    left_arm: ArmPart | None = None
    right_arm: ArmPart | None = None
    legs: LegPart | None = None
    left_leg: LegPart | None = None
    right_leg: LegPart | None = None


class MomentPart(JointsPart):
    """The end of an in-breath or of an out-breath."""

    pose: str | None = Field(None, description="another base pose than the figure's")
    hands: HandsPart | None = None
    press: list[Presser] = Field(default_factory=list, description="what presses, unmoved")
    free: list[Limb] = Field(default_factory=list, description="what touches nothing here")


class FigurePart(Part):
    """The picture of a lesson."""

    pose: str | None = Field(None, description="the base pose; the position's where left out")
    view: Literal["side", "above", "front", "back", "corner"] = "side"
    hands: HandsPart | None = None
    breath: list[Breath] = Field(default_factory=list)
    move_arrows: bool = Field(default=True, description="false where a move goes on, as a walk")
    props: dict[str, str] = Field(default_factory=dict, description="prop: how it lies")
    start: JointsPart | None = Field(None, description="angles of both breaths")
    inhale: MomentPart | None = None
    exhale: MomentPart | None = None
