"""Poses: how a body is held, by the angles of its joints.

Angles are in degrees and 0 is standing straight, arms hanging, palms in. ``out`` and ``turn``
of a limb lead away from the middle of the body on either side, so that a pose can be mirrored
by changing sides. What they may be at most stands in `builder.sums.joint_limits`.
"""

from dataclasses import dataclass, field, fields, replace


@dataclass(frozen=True, slots=True)
class Arm:
    """One arm."""

    lift: float = 0.0
    """Shoulder flexion: 90 straight ahead, 180 overhead, below 0 behind the body."""
    out: float = 0.0
    """Away from the middle: abduction of a hanging arm."""
    turn: float = 0.0
    """About its own length, outwards."""
    elbow: float = 0.0
    roll: float = 0.0
    """The forearm turns the palm back and then out (pronation); below 0 to the front."""
    wrist: float = 0.0
    """Towards the palm; below 0 towards the back of the hand."""


@dataclass(frozen=True, slots=True)
class Leg:
    """One leg."""

    hip: float = 0.0
    """Hip flexion: 90 thigh straight ahead, below 0 behind the body."""
    out: float = 0.0
    turn: float = 0.0
    knee: float = 0.0
    ankle: float = 0.0
    """Toes up; below 0 toes pointed."""


@dataclass(frozen=True, slots=True)
class Spine:
    """Pelvis, back, neck and head."""

    tuck: float = 0.0
    """The tail curls towards the navel; below 0 it tips the other way."""
    curl: float = 0.0
    """The low and the upper back round; below 0 they arch."""
    turn: float = 0.0
    """The chest turns to the body's own left."""
    nod: float = 0.0
    """The chin comes to the chest."""
    look: float = 0.0
    """The head turns to the body's own left."""


@dataclass(frozen=True, slots=True)
class Shape:
    """Where the breath shows: 0 as after an out-breath, 1 as after an in-breath."""

    belly: float = 0.0
    sides: float = 0.0
    back: float = 0.0
    chest: float = 0.0
    left: float = 0.0
    """The left ribs alone."""
    right: float = 0.0


@dataclass(frozen=True, slots=True)
class Lie:
    """How the whole body lies in the room."""

    lean: float = 0.0
    """0 upright, 90 face down with the head ahead, -90 on the back."""
    spin: float = 0.0
    """About the body's own length, to its own left."""
    facing: float = 0.0
    """0 to the right of the picture, 90 away from the viewer, -90 to the viewer."""


@dataclass(frozen=True, slots=True)
class Pose:
    """One whole body."""

    lie: Lie = field(default_factory=Lie)
    spine: Spine = field(default_factory=Spine)
    shape: Shape = field(default_factory=Shape)
    left_arm: Arm = field(default_factory=Arm)
    right_arm: Arm = field(default_factory=Arm)
    left_leg: Leg = field(default_factory=Leg)
    right_leg: Leg = field(default_factory=Leg)

    def mirrored(self) -> "Pose":
        """Return the pose with left and right changed over."""
        spine = replace(self.spine, turn=-self.spine.turn, look=-self.spine.look)
        return replace(
            self,
            lie=replace(self.lie, spin=-self.lie.spin),
            spine=spine,
            shape=replace(self.shape, left=self.shape.right, right=self.shape.left),
            left_arm=self.right_arm,
            right_arm=self.left_arm,
            left_leg=self.right_leg,
            right_leg=self.left_leg,
        )


PARTS = tuple(part.name for part in fields(Pose))


def blend(start: Pose, end: Pose, share: float) -> Pose:
    """Return the pose at a share of the way, every angle for itself."""
    parts = {}
    for name in PARTS:
        first, second = getattr(start, name), getattr(end, name)
        angles = {
            angle.name: (1 - share) * getattr(first, angle.name)
            + share * getattr(second, angle.name)
            for angle in fields(first)
        }
        parts[name] = type(first)(**angles)
    return Pose(**parts)
