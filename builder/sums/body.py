"""The body's measures, each as a part of the height.

Lengths: Drillis and Contini 1966, as in Winter, *Biomechanics and Motor Control of Human
Movement*, figure 4.1. Thicknesses, and how a breath changes them, are our own, for drawing.
"""

from dataclasses import dataclass

from builder.sums.citation import Citation, ours

DRILLIS = Citation(
    "drillis-1966",
    "Drillis and Contini",
    1966,
    "lengths of the body's segments as parts of height",
    "as in Winter, Biomechanics and Motor Control of Human Movement, figure 4.1",
)
THICKNESSES = ours("thicknesses", "thicknesses of limbs and trunk, and how a breath changes them")

ANKLE_HEIGHT = 0.039
KNEE_HEIGHT = 0.285
HIP_HEIGHT = 0.530
SHOULDER_HEIGHT = 0.818
CHIN_HEIGHT = 0.870
UPPER_ARM = 0.186
FOREARM = 0.146
HAND = 0.108
SHOULDER_BREADTH = 0.259
HIP_BREADTH = 0.191
FOOT_LENGTH = 0.152

THIGH = HIP_HEIGHT - KNEE_HEIGHT
SHANK = KNEE_HEIGHT - ANKLE_HEIGHT
TRUNK = SHOULDER_HEIGHT - HIP_HEIGHT
NECK = CHIN_HEIGHT - SHOULDER_HEIGHT
HEAD = 1 - CHIN_HEIGHT

HIP_JOINT_OFFSET = 0.052
"""From the middle to the centre of a hip joint; ours."""
SHOULDER_JOINT_OFFSET = SHOULDER_BREADTH / 2 - 0.030
PALM_FROM_WRIST = 0.042
HEEL_BEHIND_ANKLE = 0.050
"""To the very end of the heel; ours."""
TOE_AHEAD_OF_ANKLE = FOOT_LENGTH - HEEL_BEHIND_ANKLE

HIP_RADIUS = 0.056
KNEE_RADIUS = 0.037
ANKLE_RADIUS = 0.023
HEEL_RADIUS = 0.021
TOE_RADIUS = 0.012
SHOULDER_RADIUS = 0.032
ELBOW_RADIUS = 0.023
WRIST_RADIUS = 0.016
PALM_RADIUS = 0.020
FINGER_RADIUS = 0.010
NECK_RADIUS = 0.027
HEAD_RADII = (0.052, 0.043, HEAD / 2)
"""Half the depth, the breadth and the height of the head."""


@dataclass(frozen=True, slots=True)
class Station:
    """One cross-section of the trunk."""

    height: float
    """Over the hips, along the spine."""
    half_breadth: float
    half_depth: float
    ahead: float
    """How far its middle lies before the spine's line."""
    belly: float = 0.0
    """How far a full belly breath moves the front."""
    sides: float = 0.0
    """How far a full breath to the sides widens each."""
    back: float = 0.0
    chest: float = 0.0


STATIONS = (
    Station(-0.060, 0.070, 0.050, -0.012),
    Station(-0.020, 0.092, 0.068, -0.012),
    Station(0.040, HIP_BREADTH / 2, 0.066, -0.002, belly=0.016),
    Station(0.095, 0.082, 0.058, 0.004, belly=0.046, back=0.014),
    Station(0.145, 0.078, 0.056, 0.002, belly=0.036, sides=0.022, back=0.016),
    Station(0.195, 0.088, 0.062, 0.000, belly=0.008, sides=0.030, back=0.024, chest=0.012),
    Station(0.240, 0.096, 0.063, -0.002, sides=0.018, back=0.016, chest=0.028),
    Station(TRUNK, 0.090, 0.044, -0.004, chest=0.008),
)
"""From the seat to the shoulders."""
