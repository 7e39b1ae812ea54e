"""The body's measures against the published ones.

Source: R. Drillis and R. Contini, *Body Segment Parameters*, 1966, as in D. A. Winter,
*Biomechanics and Motor Control of Human Movement*, figure 4.1; parts of the height.
"""

import pytest

from builder.sums import body


@pytest.mark.parametrize(
    ("measure", "published"),
    [
        (body.ANKLE_HEIGHT, 0.039),
        (body.KNEE_HEIGHT, 0.285),
        (body.HIP_HEIGHT, 0.530),
        (body.SHOULDER_HEIGHT, 0.818),
        (body.CHIN_HEIGHT, 0.870),
        (body.UPPER_ARM, 0.186),
        (body.FOREARM, 0.146),
        (body.HAND, 0.108),
        (body.SHOULDER_BREADTH, 0.259),
        (body.HIP_BREADTH, 0.191),
        (body.FOOT_LENGTH, 0.152),
        (body.THIGH, 0.245),
        (body.SHANK, 0.246),
        (body.TRUNK, 0.288),
        (body.NECK, 0.052),
        (body.HEAD, 0.130),
    ],
)
def test_segments_are_the_published_parts_of_the_height(measure: float, published: float) -> None:
    assert measure == pytest.approx(published)


def test_the_segments_of_a_standing_body_add_up_to_its_height() -> None:
    parts = (body.ANKLE_HEIGHT, body.SHANK, body.THIGH, body.TRUNK, body.NECK, body.HEAD)
    assert sum(parts) == pytest.approx(1.000)


def test_arm_and_hand_add_up() -> None:
    assert pytest.approx(0.440) == body.UPPER_ARM + body.FOREARM + body.HAND


def test_the_trunk_ends_at_the_shoulders_and_narrows_nowhere_to_nothing() -> None:
    heights = [station.height for station in body.STATIONS]
    assert heights == sorted(heights)
    assert heights[-1] == body.TRUNK
    assert all(min(s.half_breadth, s.half_depth) > 0.03 for s in body.STATIONS)
